/* Messages about rows, of which a long sheet may have as many as rows: the first few of a kind are
 * said, and the rest are counted. Messages are kept until they are said, so that several threads
 * can each put theirs together. */
#ifndef GROAT_COMMAND_TELLING_H
#define GROAT_COMMAND_TELLING_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "listing/bytes.h"

/* The kinds of messages so far, and how many of each. One for each sheet. */
struct tally;

struct tally *tally_open(void); /* NULL when memory runs out */
void tally_close(struct tally *tally);
/* Says for each kind how many more there were than were said. `file` begins the messages. */
void tally_say_rest(const struct tally *tally, const char *file);

/* Messages that are not said yet. Zeroed, it has none. */
struct telling {
    struct bytes texts;
    struct told *told;
    size_t count, room;
    bool failed; /* memory ran out: some messages are lost */
};

void telling_free(struct telling *telling);
/* Begins a message. `kind` is what makes messages alike: what is wrong, without the row. Returns
 * false if enough of this kind have been said already; then the message has no lines. */
bool telling_begin(struct telling *telling, const struct tally *tally, const char *kind);
/* The same of a kind that is said once, and whose number somebody else says. */
bool telling_begin_once(struct telling *telling, const struct tally *tally, const char *kind);
/* Adds a line to the message begun last. */
void telling_line(struct telling *telling, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Says the messages, as far as the tally lets them be said, and empties the list. */
void telling_say(struct telling *telling, struct tally *tally);

#endif
