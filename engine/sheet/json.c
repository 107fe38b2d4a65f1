/* JSON and NDJSON, read with yajl, which passes on numbers as they are written: `12.10` stays
 * `12.10` and `1e400` stays `1e400`. The language decides which numbers are valid: the reader of
 * the cell refuses `1e400`, as it refuses the same text in a CSV. */
#include "memory/memory.h"
#include "sheet/complaint.h"
#include "sheet/exponent.h"
#include "sheet/reader.h"

#include <assert.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>
#include <yajl/yajl_parse.h>

/* A limit, because each name is compared with every earlier one of the same cell. */
#define PARTS_MAX 1000

static const char row_help[] =
    "write each product as {\"name\": \"tray\", \"hands_on\": \"25 min\"}";

enum depth { OUTSIDE, IN_ARRAY, IN_ROW, IN_PARTS };

struct json {
    struct sheet_reader reader;
    struct sheet_source *source, text;
    struct sheet *sheet;
    struct memory memory;
    struct arena parser_arena, names_arena; /* of yajl; of the names of the open cell's parts */
    yajl_handle parser;
    bool by_line;
    enum depth depth;
    size_t base;                        /* offset from which yajl counts bytes */
    size_t token_end;                   /* offset after the last token that yajl reported */
    size_t line, line_at;               /* the line of the byte at `line_at` */
    size_t line_rows;                   /* rows begun on this line of an NDJSON sheet */
    size_t column;                      /* of the key just read */
    struct sheet_text parts[PARTS_MAX]; /* the names of those of the open cell */
    size_t part_count;
    size_t skipped;     /* how deep in a list or object that is passed over; 0: in none */
    bool cell_is_wrong; /* the parts of the open cell are passed over */
    bool row_is_wrong;  /* the rest of the open row is passed over, */
    bool begun;         /* and it has begun */
    bool broken;        /* the sheet cannot be read on */
};

/* The beginning of the token that yajl reports. Only blanks, commas and colons come between two
 * such tokens. */
static size_t next_token(const struct json *json)
{
    const char *bytes = json->source->bytes;
    size_t at = json->token_end;
    while (at < json->source->length && strchr(" \t\r\n,:", bytes[at]))
        at++;
    return at < json->source->length ? at : json->source->length;
}

static size_t begin_token(struct json *json)
{
    size_t at = next_token(json);
    json->token_end = json->base + yajl_get_bytes_consumed(json->parser);
    return at;
}

/* What breaks the sheet rather than a row. */
static bool fail_memory(struct json *json)
{
    json->broken = true;
    return sheet_fail_memory(json->source);
}

/* Whether what is read now belongs to something wrong that is passed over. */
static bool is_passed_over(const struct json *json)
{
    return json->skipped > 0 || json->row_is_wrong ||
           (json->cell_is_wrong && json->depth == IN_PARTS);
}

/* Makes the open cell one that cannot be read, for the reason in the error. */
static bool spoil_cell(struct json *json)
{
    json->cell_is_wrong = true;
    return sheet_grid_spoil_cell(json->sheet, json->column, json->source->error) ||
           fail_memory(json);
}

/* The same of the open row. */
static bool spoil_row(struct json *json)
{
    json->row_is_wrong = true;
    return sheet_grid_spoil_row(json->sheet, json->source->error) || fail_memory(json);
}

static struct sheet_shown key_shown(const struct json *json)
{
    struct sheet_text heading = sheet_heading(json->sheet, json->column);
    return sheet_shown(heading.start, heading.length);
}

/* ---- parts ---- */

static bool name_part(struct json *json, size_t at, const char *name, size_t length)
{
    const struct sheet_source *source = json->source;
    bool plain = length > 0;
    for (size_t i = 0; i < length; i++)
        plain = plain && !strchr(" \t\r\n+", name[i]);
    if (!plain)
        return sheet_fail(source, at, "join its words with `_`, as in linseed_oil",
                          "a part cannot be named `%s`", sheet_shown(name, length).text);
    for (size_t i = 0; i < json->part_count; i++) {
        const struct sheet_text *known = &json->parts[i];
        if (known->length == length && memcmp(known->start, name, length) == 0)
            return sheet_fail(source, at, "add up the two amounts", "the part `%s` is given twice",
                              sheet_shown(name, length).text);
    }
    if (json->part_count == PARTS_MAX)
        return sheet_fail(source, at, "enter them in the rules as a cost",
                          "a cell has more than %d parts", PARTS_MAX);
    const char *copy = arena_text(&json->names_arena, name, length);
    json->parts[json->part_count++] = (struct sheet_text){copy, length};
    return true;
}

static bool begin_part(struct json *json, size_t at, const char *name, size_t length)
{
    return name_part(json, at, name, length) || spoil_cell(json);
}

static bool write_part(struct json *json, const char *amount, size_t length)
{
    if (length == 0)
        return true; /* without an amount there is no part, as an empty cell is absent */
    const struct sheet_text *part = &json->parts[json->part_count - 1];
    struct sheet *sheet = json->sheet;
    return (!sheet_grid_wrote(sheet) || sheet_grid_write(sheet, " + ", 3)) &&
           sheet_grid_write(sheet, part->start, part->length) && sheet_grid_write(sheet, " ", 1) &&
           sheet_grid_write(sheet, amount, length);
}

/* ---- values ---- */

/* Reports an array with something other than objects, or a sheet that is not an array. */
static bool fail_no_row(const struct json *json, size_t at, const char *found)
{
    if (json->by_line)
        return sheet_fail(json->source, at, row_help, "a line must be one object, but this is %s",
                          found);
    if (json->depth == OUTSIDE)
        return sheet_fail(json->source, at, "put the products in one list: [ {...}, {...} ]",
                          "a JSON sheet must be a list of objects, but this is %s", found);
    return sheet_fail(json->source, at, row_help, "a product must be an object, but this is %s",
                      found);
}

static bool take_text(struct json *json, const char *text, size_t length, const char *kind)
{
    size_t at = begin_token(json);
    if (json->depth == OUTSIDE || json->depth == IN_ARRAY)
        return fail_no_row(json, at, kind);
    if (is_passed_over(json))
        return true;
    bool written = json->depth == IN_PARTS ? write_part(json, text, length)
                                           : sheet_grid_write(json->sheet, text, length) &&
                                                 sheet_grid_end_cell(json->sheet, json->column);
    return written || fail_memory(json);
}

static int on_string(void *context, const unsigned char *text, size_t length)
{
    return take_text(context, (const char *)text, length, "a text");
}

static int on_number(void *context, const char *text, size_t length)
{
    char plain[EXPONENT_TEXT_MOST];
    size_t plain_length = exponent_written_out(text, length, plain);
    return plain_length > 0 ? take_text(context, plain, plain_length, "a number")
                            : take_text(context, text, length, "a number");
}

static int on_null(void *context)
{
    return take_text(context, "", 0, "null");
}

static int on_boolean(void *context, int value)
{
    struct json *json = context;
    const char *word = value ? "yes" : "no";
    if (json->depth != IN_PARTS || is_passed_over(json))
        return take_text(json, word, strlen(word), "true or false");
    sheet_fail(json->source, begin_token(json), "write a number or a text like \"15 ml\"",
               "true and false are not amounts of a part");
    return spoil_cell(json);
}

/* ---- objects and lists ---- */

static size_t line_of(struct json *json, size_t at)
{
    if (!json->by_line)
        for (; json->line_at < at; json->line_at++)
            json->line += sheet_ends_line(json->source, json->line_at);
    return json->line;
}

static bool begin_row(struct json *json, size_t at)
{
    if (json->by_line && json->line_rows++ > 0)
        return sheet_fail(json->source, at, "put each object on a line of its own",
                          "a second object begins on this line");
    json->depth = IN_ROW;
    json->row_is_wrong = json->cell_is_wrong = false;
    json->begun = true;
    return sheet_grid_begin_row(json->sheet, line_of(json, at)) || fail_memory(json);
}

/* Passes over a list or an object in place of a cell or of a part's amount. */
static bool skip(struct json *json, size_t at, bool list)
{
    bool passed_over = is_passed_over(json);
    json->skipped++;
    if (passed_over)
        return true;
    sheet_fail(
        json->source, at,
        list ? "write parts as an object: {\"screws\": 8}" : "write each part as \"screws\": 8",
        "`%s` contains %s", key_shown(json).text, list ? "a list" : "an object inside its parts");
    return spoil_cell(json);
}

static int on_start_map(void *context)
{
    struct json *json = context;
    size_t at = begin_token(json);
    if (json->skipped > 0 || json->depth == IN_PARTS || json->row_is_wrong)
        return skip(json, at, false);
    switch (json->depth) {
    case OUTSIDE:
        if (json->by_line)
            return begin_row(json, at);
        return sheet_fail(json->source, at,
                          "put the products in [ ], or name the sheet .ndjson if every line is one "
                          "object",
                          "a JSON sheet must be a list of objects, but this is one object");
    case IN_ARRAY: return begin_row(json, at);
    default: break;
    }
    json->depth = IN_PARTS;
    json->part_count = 0;
    json->cell_is_wrong = false;
    arena_empty(&json->names_arena);
    return true;
}

/* The keys of a row that is passed over are columns all the same. */
static bool begin_cell(struct json *json, size_t at, struct sheet_text key)
{
    if (key.length == 0) {
        sheet_fail(json->source, at, "give it the name of a field", "this key is empty");
        return json->row_is_wrong || spoil_row(json);
    }
    json->column = sheet_grid_find(json->sheet, key.start, key.length);
    if (json->column == SHEET_NO_COLUMN) {
        json->column = sheet_column_count(json->sheet);
        if (!sheet_grid_add_column(json->sheet, json->source, at, key.start, key.length)) {
            json->broken = true;
            return false;
        }
    }
    if (json->row_is_wrong || sheet_grid_claim(json->sheet, json->column))
        return true;
    sheet_fail(json->source, at, "remove one of them", "the key `%s` is given twice",
               key_shown(json).text);
    return spoil_row(json);
}

static int on_key(void *context, const unsigned char *text, size_t length)
{
    struct json *json = context;
    size_t at = begin_token(json);
    if (json->skipped > 0 || (json->depth == IN_PARTS && is_passed_over(json)))
        return true;
    if (json->depth == IN_PARTS)
        return begin_part(json, at, (const char *)text, length);
    return begin_cell(json, at, sheet_trimmed((const char *)text, length));
}

static int on_end_map(void *context)
{
    struct json *json = context;
    begin_token(json);
    if (json->skipped > 0) {
        json->skipped--;
        return true;
    }
    if (json->depth == IN_PARTS) {
        json->depth = IN_ROW;
        return json->cell_is_wrong || sheet_grid_end_cell(json->sheet, json->column) ||
               fail_memory(json);
    }
    json->depth = json->by_line ? OUTSIDE : IN_ARRAY;
    if (!json->row_is_wrong)
        sheet_grid_end_row(json->sheet);
    json->row_is_wrong = false;
    return true;
}

static int on_start_array(void *context)
{
    struct json *json = context;
    size_t at = begin_token(json);
    if (json->depth == OUTSIDE && json->by_line)
        return sheet_fail(json->source, at, "name the sheet .json if all of it is one list",
                          "a line must be one object, but this is a list");
    if (json->depth == OUTSIDE) {
        json->depth = IN_ARRAY;
        return true;
    }
    return json->depth == IN_ARRAY ? fail_no_row(json, at, "a list") : skip(json, at, true);
}

static int on_end_array(void *context)
{
    struct json *json = context;
    begin_token(json);
    if (json->skipped > 0)
        json->skipped--;
    else
        json->depth = OUTSIDE;
    return true;
}

static const yajl_callbacks callbacks = {
    .yajl_null = on_null,
    .yajl_boolean = on_boolean,
    .yajl_number = on_number,
    .yajl_string = on_string,
    .yajl_start_map = on_start_map,
    .yajl_map_key = on_key,
    .yajl_end_map = on_end_map,
    .yajl_start_array = on_start_array,
    .yajl_end_array = on_end_array,
};

/* ---- the text ---- */

#define NO_ESCAPE 0x10000u

/* The value of a `\uXXXX` at `at`, or NO_ESCAPE. */
static unsigned escape_value(const struct sheet_source *source, size_t at)
{
    const char *bytes = source->bytes;
    if (at + 6 > source->length || bytes[at] != '\\' || bytes[at + 1] != 'u')
        return NO_ESCAPE;
    unsigned value = 0;
    for (size_t i = at + 2; i < at + 6; i++) {
        static const char digits[] = "0123456789abcdefABCDEF";
        const char *digit = bytes[i] ? strchr(digits, bytes[i]) : NULL;
        if (!digit)
            return NO_ESCAPE;
        unsigned worth = (unsigned)(digit - digits);
        value = value * 16 + (worth < 16 ? worth : worth - 6);
    }
    return value;
}

/* yajl silently turns half a surrogate pair into `?`, and accepts \u0000. JSON has backslashes only
 * inside texts, so this check needs no tokens. */
static bool check_escapes(const struct sheet_source *source, size_t at, size_t end)
{
    for (; at < end; at++) {
        const char *escape = memchr(source->bytes + at, '\\', end - at);
        if (!escape)
            return true;
        at = (size_t)(escape - source->bytes);
        unsigned value = escape_value(source, at);
        if (value == 0)
            return sheet_fail(source, at, "remove it",
                              "`\\u0000` is a zero byte, which a sheet cannot contain");
        bool high = value >= 0xD800 && value <= 0xDBFF, low = value >= 0xDC00 && value <= 0xDFFF;
        unsigned next = high ? escape_value(source, at + 6) : 0;
        if (low || (high && (next < 0xDC00 || next > 0xDFFF)))
            return sheet_fail(source, at, "write the character itself",
                              "this escape is only half of a surrogate pair");
        at += high ? 11 : 1;
    }
    return true;
}

static bool fail_syntax(struct json *json)
{
    unsigned char *words = yajl_get_error(json->parser, 0, NULL, 0);
    size_t read = json->base + yajl_get_bytes_consumed(json->parser);
    if (read > json->source->length)
        read = json->source->length;
    return complaint_fail(json->source, (const char *)words, json->token_end, next_token(json),
                          read);
}

static bool fail_unfinished(const struct json *json, size_t at)
{
    const char *missing = json->depth == IN_ARRAY ? "]" : "}";
    if (json->depth == OUTSIDE)
        return sheet_fail_empty(json->source);
    if (json->by_line)
        return sheet_fail(json->source, at, "keep each object on one line",
                          "the line ends inside its object, before the `}`");
    return sheet_fail(json->source, at, "export the sheet again: its end is missing",
                      "the sheet ends in the middle, before a `%s`", missing);
}

/* Turns yajl's status for a chunk into true, or false with the error filled in. A callback that
 * stopped yajl has filled it in already. */
static bool take_status(struct json *json, yajl_status status)
{
    if (status == yajl_status_error)
        return fail_syntax(json);
    return status == yajl_status_ok;
}

/* Reads from `base` on to `stop`, where the whole of something has to end. */
static bool read_to(struct json *json, size_t stop)
{
    const unsigned char *text = (const unsigned char *)json->source->bytes + json->base;
    if (!take_status(json, yajl_parse(json->parser, text, stop - json->base)))
        return false;
    /* A blank after the last byte ends a number there. An error after it can only mean that the end
     * is missing. */
    json->base = stop;
    yajl_status status = yajl_parse(json->parser, (const unsigned char *)"\n", 1);
    if (json->depth != OUTSIDE && status != yajl_status_client_canceled)
        return fail_unfinished(json, stop);
    return take_status(json, status);
}

static bool read_array(struct json *json)
{
    size_t at = json->base, end = json->source->length;
    while (at < end && strchr(" \t\r\n", json->source->bytes[at]))
        at++;
    if (at == end)
        return sheet_fail_empty(json->source);
    return sheet_check_characters(json->source, json->base, end) &&
           check_escapes(json->source, json->base, end) && read_to(json, end) &&
           (yajl_complete_parse(json->parser) == yajl_status_ok || fail_unfinished(json, end));
}

/* ---- memory ---- */

/* yajl does not check whether an allocation failed, so it gets its memory from an arena, which
 * jumps back to the reader instead. What it gives back is freed with the arena: it asks for few
 * blocks, and doubles those that grow. */
struct parser_block {
    size_t size;
    max_align_t room[];
};

static void *parser_new(void *arena, size_t size)
{
    assert(size <= SIZE_MAX - sizeof(struct parser_block));
    struct parser_block *block = arena_take(arena, sizeof *block + size);
    block->size = size;
    return block->room;
}

static void *parser_resize(void *arena, void *room, size_t size)
{
    void *grown = parser_new(arena, size);
    if (room) {
        const struct parser_block *block =
            (const void *)((char *)room - offsetof(struct parser_block, room));
        memcpy(grown, room, block->size < size ? block->size : size);
    }
    return grown;
}

static void parser_release(void *arena, void *room)
{
    (void)arena;
    (void)room;
}

static void open_parser(struct json *json)
{
    arena_empty(&json->parser_arena);
    yajl_alloc_funcs functions = {parser_new, parser_resize, parser_release, &json->parser_arena};
    json->parser = yajl_alloc(&callbacks, &functions, json);
    if (json->by_line)
        yajl_config(json->parser, yajl_allow_multiple_values, 1);
}

/* ---- lines ---- */

/* The line, without its end, that begins at the feed's place; false if it has not come whole. */
static bool cut_line(const struct sheet_feed *feed, struct sheet_source *line, size_t *next)
{
    size_t end = sheet_line_end(line, feed->at), stop = end;
    bool whole = end < feed->length || (end > feed->at && feed->bytes[end - 1] == '\n');
    if (!whole && !feed->ended)
        return false;
    while (stop > feed->at && (feed->bytes[stop - 1] == '\n' || feed->bytes[stop - 1] == '\r'))
        stop--;
    *next = end;
    line->length = stop;
    return true;
}

static bool read_line(struct json *json)
{
    const struct sheet_source *line = json->source;
    json->base = json->token_end = line->mark;
    json->line_rows = 0;
    json->begun = json->row_is_wrong = false;
    return sheet_check_characters(line, line->mark, line->length) &&
           check_escapes(line, line->mark, line->length) && read_to(json, line->length);
}

/* Keeps a line that cannot be read as a row, and makes the parser ready for the next one. */
static bool take_wrong_line(struct json *json)
{
    if (json->broken)
        return false;
    json->depth = OUTSIDE;
    json->skipped = 0;
    if (!json->begun && !sheet_grid_begin_row(json->sheet, json->line))
        return fail_memory(json);
    open_parser(json);
    return spoil_row(json);
}

/* A line that has not come whole yet may be all the rest of a sheet that has no lines. */
static bool cut_is_fine(const struct json *json)
{
    const struct sheet_feed *feed = &json->sheet->feed;
    if (feed->block == SHEET_WHOLE || feed->length - feed->at < SHEET_ROW_MOST)
        return true;
    return sheet_fail(json->source, feed->at, "name the sheet .json if all of it is one list",
                      "this line is longer than %zu MB", SHEET_ROW_MOST >> 20);
}

static bool read_lines(struct json *json)
{
    struct sheet_feed *feed = &json->sheet->feed;
    while (feed->at < feed->length) {
        size_t next;
        *json->source = (struct sheet_source){feed->bytes, feed->length, feed->at, json->line + 1,
                                              json->source->error};
        if (!cut_line(feed, json->source, &next))
            return cut_is_fine(json);
        json->line++;
        if (!read_line(json) && !take_wrong_line(json))
            return false;
        feed->at = next;
    }
    bool nothing = feed->ended && sheet_row_count(json->sheet) == 0;
    return !nothing || sheet_fail_empty(json->source);
}

/* ---- the sheet ---- */

static bool read_guarded(struct json *json)
{
    struct sheet_feed *feed = &json->sheet->feed;
    jmp_buf exhausted;
    if (setjmp(exhausted))
        return sheet_fail_memory(json->source);
    json->parser_arena.escape = json->names_arena.escape = &exhausted;
    if (!json->parser)
        open_parser(json);
    if (json->by_line)
        return read_lines(json);
    json->base = json->token_end = json->line_at = feed->at;
    feed->at = feed->length;
    return read_array(json);
}

static bool take_rows(struct sheet_reader *reader, struct sheet_error *error)
{
    struct json *json = (struct json *)reader;
    const struct sheet_feed *feed = &json->sheet->feed;
    json->text = (struct sheet_source){feed->bytes, feed->length, feed->at, 1, error};
    json->source = &json->text;
    return read_guarded(json);
}

static void close_json(struct sheet_reader *reader)
{
    struct json *json = (struct json *)reader;
    arena_close(&json->parser_arena);
    arena_close(&json->names_arena);
    free(json);
}

struct sheet_reader *sheet_open_json(struct sheet *sheet, bool by_line)
{
    struct json *json = calloc(1, sizeof *json);
    if (!json)
        return NULL;
    json->reader = (struct sheet_reader){take_rows, close_json};
    json->sheet = sheet;
    json->by_line = by_line;
    json->line = by_line ? 0 : 1;
    json->memory = memory_standard();
    arena_open(&json->parser_arena, &json->memory);
    arena_open(&json->names_arena, &json->memory);
    return &json->reader;
}
