#define _POSIX_C_SOURCE 200809L
#include "command/progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

#define SECONDS_BEFORE 1.0
#define SECONDS_BETWEEN 0.2
#define LOOK_EVERY 32 /* things: looking at the clock is not free */

/* There is one standard error, and one line on it. */
static struct {
    bool wanted, shown;
    double next; /* when it is shown again, in seconds of the clock */
} line;

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

void progress_begin(bool wanted)
{
    line.wanted = wanted && isatty(STDERR_FILENO);
    line.next = seconds() + SECONDS_BEFORE;
}

void progress_tell(size_t done, size_t total)
{
    if (done % LOOK_EVERY == 0)
        progress_tell_now(done, total);
}

void progress_tell_now(size_t done, size_t total)
{
    if (!line.wanted || seconds() < line.next)
        return;
    fprintf(stderr, "\r%zu of %zu products", done, total);
    line.shown = true;
    line.next = seconds() + SECONDS_BETWEEN;
}

void progress_clear(void)
{
    if (line.shown)
        fputs("\r\033[K", stderr);
    line.shown = false;
}
