/* A crew: threads that share independent pieces of work. */
#ifndef GROAT_STUDY_CREW_H
#define GROAT_STUDY_CREW_H

#include <stddef.h>

#define CREW_MOST 16

/* How many threads this machine runs at once, at most CREW_MOST. */
size_t crew_hands(void);

/* Does one piece of work. `hand`, from 0, is the number of the thread. */
typedef void crew_work(void *context, size_t hand, size_t thing);

/* Does `count` pieces of work with `hands` threads, including the caller's, and returns when all
 * are done. If threads cannot be started, fewer do all the work. */
void crew_run(size_t hands, size_t count, crew_work *work, void *context);

#endif
