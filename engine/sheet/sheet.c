#include "sheet/reader.h"

#include <stdlib.h>
#include <string.h>

static const char *const form_words[] = {
    [SHEET_CSV] = "csv", [SHEET_TSV] = "tsv", [SHEET_JSON] = "json", [SHEET_NDJSON] = "ndjson"};

/* The C library's tolower is not used because it depends on the host's locale. */
static bool same_word(const char *text, const char *word)
{
    for (; *text && *word; text++, word++) {
        char small = *text >= 'A' && *text <= 'Z' ? (char)(*text - 'A' + 'a') : *text;
        if (small != *word)
            return false;
    }
    return *text == *word;
}

bool sheet_form_of_word(const char *word, enum sheet_form *form)
{
    for (size_t i = 0; i < sizeof form_words / sizeof *form_words; i++) {
        if (same_word(word, form_words[i])) {
            *form = (enum sheet_form)i;
            return true;
        }
    }
    return false;
}

bool sheet_form_of_name(const char *file_name, enum sheet_form *form)
{
    const char *point = strrchr(file_name, '.');
    return point && sheet_form_of_word(point + 1, form);
}

/* ---- the bytes ---- */

/* Makes room for more bytes, at least doubled where a row is longer than a block. */
static bool make_room(struct sheet_feed *feed)
{
    if (feed->length < feed->room)
        return true;
    size_t least = feed->block < SHEET_BLOCK ? feed->block : SHEET_BLOCK;
    size_t room = feed->room < least ? least : 2 * feed->room;
    room = room > SHEET_BYTES_MAX ? SHEET_BYTES_MAX : room;
    char *bytes = realloc(feed->bytes, room);
    if (!bytes)
        return false;
    feed->bytes = bytes;
    feed->room = room;
    return true;
}

/* Takes the next bytes. Returns false, with the error filled in, if there can be none. */
static bool take_more(struct sheet_feed *feed, struct sheet_error *error)
{
    struct sheet_source none = {.error = error};
    if (feed->length == SHEET_BYTES_MAX)
        return sheet_fail(&none, SHEET_NO_PLACE, "split the sheet",
                          "the sheet is larger than 4 GB");
    if (!make_room(feed))
        return sheet_fail_memory(&none);
    bool last = false;
    size_t got =
        feed->give(feed->context, feed->bytes + feed->length, feed->room - feed->length, &last);
    if (got == SHEET_GIVES_NONE)
        return sheet_fail(&none, SHEET_NO_PLACE, "", "%s", "");
    feed->length += got;
    feed->ended = got == 0 || last;
    return true;
}

static void drop_taken(struct sheet_feed *feed)
{
    if (feed->at > 0 && feed->at < feed->length)
        memmove(feed->bytes, feed->bytes + feed->at, feed->length - feed->at);
    feed->length -= feed->at;
    feed->at = 0;
}

/* ---- blocks ---- */

/* Looks at the first bytes, and opens the reader. */
static bool open_reader(struct sheet *sheet, enum sheet_form form, struct sheet_error *error)
{
    struct sheet_feed *feed = &sheet->feed;
    while (feed->length < 4 && !feed->ended)
        if (!take_more(feed, error))
            return false;
    struct sheet_source source = {feed->bytes, feed->length, 0, 1, error};
    if (feed->length >= 3 && memcmp(feed->bytes, "\xEF\xBB\xBF", 3) == 0)
        feed->at = 3;
    else if (!sheet_check_signature(&source))
        return false;
    bool json = form == SHEET_JSON || form == SHEET_NDJSON;
    sheet->own_texts = json;
    sheet->reader =
        json ? sheet_open_json(sheet, form == SHEET_NDJSON) : sheet_open_separated(sheet, form);
    return sheet->reader || sheet_fail_memory(&source);
}

/* Reads on until there is a row, or the sheet is over. */
static bool fill(struct sheet *sheet, struct sheet_error *error)
{
    struct sheet_feed *feed = &sheet->feed;
    drop_taken(feed);
    for (;;) {
        bool waits = feed->block == SHEET_WHOLE && !feed->ended;
        if (!waits && !sheet->reader->take(sheet->reader, error))
            return false;
        if (sheet->row_count > 0 || (!waits && feed->ended))
            return true;
        if (!take_more(feed, error))
            return false;
    }
}

struct sheet *sheet_open(enum sheet_form form, size_t block, sheet_giver *give, void *context,
                         struct sheet_error *error)
{
    struct sheet *sheet = sheet_grid_open();
    if (!sheet) {
        sheet_fail_memory(&(struct sheet_source){.error = error});
        return NULL;
    }
    sheet->feed = (struct sheet_feed){
        .give = give, .context = context, .block = form == SHEET_JSON ? SHEET_WHOLE : block};
    if (open_reader(sheet, form, error) && fill(sheet, error))
        return sheet;
    sheet_free(sheet);
    return NULL;
}

enum sheet_step sheet_next(struct sheet *sheet, struct sheet_error *error)
{
    sheet_grid_clear(sheet);
    if (sheet_is_over(sheet))
        return SHEET_END;
    if (!fill(sheet, error))
        return SHEET_BROKEN;
    return sheet->row_count > 0 ? SHEET_ROWS : SHEET_END;
}

bool sheet_is_over(const struct sheet *sheet)
{
    return sheet->feed.ended && sheet->feed.at == sheet->feed.length;
}

/* ---- a sheet in memory ---- */

struct text {
    const char *bytes;
    size_t length;
};

static size_t give_text(void *context, char *bytes, size_t room, bool *last)
{
    struct text *text = context;
    size_t count = text->length < room ? text->length : room;
    if (count > 0)
        memcpy(bytes, text->bytes, count);
    text->bytes += count;
    text->length -= count;
    *last = text->length == 0;
    return count;
}

struct sheet *sheet_read(enum sheet_form form, const char *bytes, size_t length,
                         struct sheet_error *error)
{
    struct text text = {bytes ? bytes : "", length};
    return sheet_open(form, SHEET_WHOLE, give_text, &text, error);
}
