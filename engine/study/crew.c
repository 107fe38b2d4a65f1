#define _DEFAULT_SOURCE
#include "study/crew.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <unistd.h>

size_t crew_hands(void)
{
    long hands = sysconf(_SC_NPROCESSORS_ONLN);
    if (hands < 1)
        return 1;
    return hands > CREW_MOST ? CREW_MOST : (size_t)hands;
}

struct crew {
    size_t count;
    atomic_size_t next;
    crew_work *work;
    void *context;
};

struct member {
    struct crew *crew;
    size_t hand;
    pthread_t thread;
    bool there;
};

/* Each takes the next thing that nobody has taken. */
static void *take_part(void *given)
{
    const struct member *member = given;
    struct crew *crew = member->crew;
    for (;;) {
        size_t thing = atomic_fetch_add(&crew->next, 1);
        if (thing >= crew->count)
            return NULL;
        crew->work(crew->context, member->hand, thing);
    }
}

void crew_run(size_t hands, size_t count, crew_work *work, void *context)
{
    struct crew crew = {.count = count, .work = work, .context = context};
    struct member members[CREW_MOST];
    if (hands > CREW_MOST)
        hands = CREW_MOST;
    if (hands > count)
        hands = count;
    for (size_t i = 1; i < hands; i++) {
        members[i] = (struct member){.crew = &crew, .hand = i};
        members[i].there = pthread_create(&members[i].thread, NULL, take_part, &members[i]) == 0;
    }
    members[0] = (struct member){.crew = &crew};
    take_part(&members[0]);
    for (size_t i = 1; i < hands; i++)
        if (members[i].there)
            pthread_join(members[i].thread, NULL);
}
