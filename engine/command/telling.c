#include "command/telling.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/say.h"
#include "memory/index.h"

/* How many messages of a kind are said, how many in all, and how many kinds are told apart. */
enum { SAID_OF_A_KIND = 5, SAID_IN_ALL = 100, KINDS_MOST = 30, KIND_BYTES = 320 };

struct kind {
    uint64_t hash;
    size_t count, said, most;
    char text[KIND_BYTES];
};

struct tally {
    struct kind kinds[KINDS_MOST];
    size_t kinds_count;
    size_t said;
    size_t others; /* messages of further kinds that were not said */
};

/* A message: its kind and its lines, each ended by a zero byte, in the texts of the list. */
struct told {
    uint64_t hash;
    size_t start, lines;
    bool named;  /* the kind is there, which may be new */
    size_t most; /* that are said of this kind */
};

struct tally *tally_open(void)
{
    return calloc(1, sizeof(struct tally));
}

void tally_close(struct tally *tally)
{
    free(tally);
}

static const struct kind *find_kind(const struct tally *tally, uint64_t hash)
{
    for (size_t i = 0; i < tally->kinds_count; i++)
        if (tally->kinds[i].hash == hash)
            return &tally->kinds[i];
    return NULL;
}

/* Whether one more message of a kind is said. NULL stands for a kind that is new. */
static bool is_said(const struct tally *tally, const struct kind *kind)
{
    return tally->said < SAID_IN_ALL && (!kind || kind->said < kind->most);
}

void tally_say_rest(const struct tally *tally, const char *file)
{
    for (size_t i = 0; i < tally->kinds_count; i++) {
        const struct kind *kind = &tally->kinds[i];
        if (kind->count > kind->said && kind->most > 1)
            say("%s: and %zu more like this: %s", file, kind->count - kind->said, kind->text);
    }
    if (tally->others > 0)
        say("%s: and %zu more messages of other kinds", file, tally->others);
}

/* ---- messages that are kept ---- */

void telling_free(struct telling *telling)
{
    bytes_free(&telling->texts);
    free(telling->told);
}

static bool begin(struct telling *telling, const struct tally *tally, const char *kind, size_t most)
{
    uint64_t hash = index_hash_text(INDEX_HASH, kind, strlen(kind));
    if (telling->count == telling->room) {
        size_t room = telling->room ? 2 * telling->room : 16;
        struct told *told = realloc(telling->told, room * sizeof *told);
        if (!told) {
            telling->failed = true;
            return false;
        }
        telling->told = told;
        telling->room = room;
    }
    const struct kind *known = find_kind(tally, hash);
    telling->told[telling->count++] = (struct told){hash, telling->texts.length, 0, !known, most};
    if (!known)
        bytes_put(&telling->texts, kind, strlen(kind) + 1);
    return is_said(tally, known);
}

bool telling_begin(struct telling *telling, const struct tally *tally, const char *kind)
{
    return begin(telling, tally, kind, SAID_OF_A_KIND);
}

bool telling_begin_once(struct telling *telling, const struct tally *tally, const char *kind)
{
    return begin(telling, tally, kind, 1);
}

void telling_line(struct telling *telling, const char *format, ...)
{
    char line[1024], *text = line;
    va_list given, again;
    va_start(given, format);
    va_copy(again, given);
    int length = vsnprintf(line, sizeof line, format, given);
    if (length >= (int)sizeof line && (text = malloc((size_t)length + 1)))
        vsnprintf(text, (size_t)length + 1, format, again);
    va_end(again);
    va_end(given);
    telling->failed = telling->failed || !text;
    if (text)
        bytes_put(&telling->texts, text, strlen(text) + 1);
    telling->told[telling->count - 1].lines += text != NULL;
    if (text != line)
        free(text);
}

static struct kind *take_kind(struct tally *tally, const struct told *told, const char *text)
{
    struct kind *kind = (struct kind *)find_kind(tally, told->hash);
    if (kind || tally->kinds_count == KINDS_MOST || !told->named)
        return kind;
    kind = &tally->kinds[tally->kinds_count++];
    kind->hash = told->hash;
    kind->most = told->most;
    snprintf(kind->text, sizeof kind->text, "%s", text);
    return kind;
}

/* The next text of a list of them. */
static const char *next_text(const char *text)
{
    return text + strlen(text) + 1;
}

static void tell(const struct told *told, const char *text, struct tally *tally)
{
    struct kind *kind = take_kind(tally, told, text);
    const char *line = told->named ? next_text(text) : text;
    bool said = told->lines > 0 && is_said(tally, kind);
    for (size_t i = 0; i < told->lines && said; i++, line = next_text(line))
        say("%s", line);
    tally->said += said;
    tally->others += !kind && !said;
    if (kind) {
        kind->count++;
        kind->said += said;
    }
}

void telling_say(struct telling *telling, struct tally *tally)
{
    telling->failed = telling->failed || telling->texts.failed;
    for (size_t i = 0; i < telling->count && !telling->failed; i++) {
        size_t start = telling->told[i].start;
        bool empty = start == telling->texts.length;
        tell(&telling->told[i], empty ? "" : telling->texts.start + start, tally);
    }
    if (telling->failed)
        say_no_memory();
    telling->failed = telling->texts.failed = false;
    telling->count = telling->texts.length = 0;
}
