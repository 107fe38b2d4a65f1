/* A crew: threads that share independent pieces of work. */
#ifndef GROAT_STUDY_CREW_H
#define GROAT_STUDY_CREW_H

#include <stddef.h>

#define CREW_MOST 16

/* How many threads this machine runs at once, at most CREW_MOST. */
size_t crew_hands(void);

/* Does one thing. `hand`, from 0, is the same for all that one thread does. */
typedef void crew_work(void *context, size_t hand, size_t thing);

/* Does all of `count` things with `hands` threads, the caller's among them, and returns when all
 * are done. Where threads cannot be had, fewer do the same. */
void crew_run(size_t hands, size_t count, crew_work *work, void *context);

#endif
