#include "command/headings.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/say.h"
#include "text/near.h"
#include "text/utf8.h"

/* The most that is repeated of a heading, in bytes, and of headings. */
#define HEADING_SHOWN 80
#define HEADINGS_SHOWN 6
/* More fields without a column and without a guess are a list, not a sentence each. */
#define SENTENCES_MOST 4
/* More pairs are not compared: such a sheet is not one with a slip in it. */
#define PAIRS_MOST 20000

bool headings_open(struct headings *headings, const char *file, const struct sheet *sheet,
                   const groat_method *method)
{
    size_t fields = groat_method_fields(method), columns = sheet_column_count(sheet);
    *headings = (struct headings){.file = file,
                                  .sheet = sheet,
                                  .method = method,
                                  .fields_count = fields,
                                  .columns = calloc(fields + 1, sizeof *headings->columns),
                                  .guesses = calloc(fields + 1, sizeof *headings->guesses),
                                  .used = calloc(columns + 1, sizeof *headings->used),
                                  .columns_count = columns};
    if (!headings->columns || !headings->guesses || !headings->used)
        return false;
    for (size_t i = 0; i < fields; i++) {
        headings->columns[i] = headings_find(sheet, groat_method_field(method, i).column);
        headings->guesses[i] = SIZE_MAX;
        if (headings->columns[i] != SIZE_MAX)
            headings->used[headings->columns[i]] = true;
    }
    return true;
}

bool headings_grow(struct headings *headings)
{
    size_t before = headings->columns_count, columns = sheet_column_count(headings->sheet);
    if (columns == before)
        return true;
    bool *used = realloc(headings->used, columns * sizeof *used);
    if (!used)
        return false;
    memset(used + before, 0, (columns - before) * sizeof *used);
    headings->used = used;
    headings->columns_count = columns;
    for (size_t i = 0; i < headings->fields_count; i++) {
        if (headings->columns[i] != SIZE_MAX)
            continue;
        headings->columns[i] =
            headings_find(headings->sheet, groat_method_field(headings->method, i).column);
        if (headings->columns[i] != SIZE_MAX)
            used[headings->columns[i]] = true;
    }
    return true;
}

void headings_free(struct headings *headings)
{
    free(headings->columns);
    free(headings->guesses);
    free(headings->used);
}

size_t headings_find(const struct sheet *sheet, const char *name)
{
    for (size_t i = 0; i < sheet_column_count(sheet); i++) {
        struct sheet_text heading = sheet_heading(sheet, i);
        if (strlen(name) == heading.length && memcmp(name, heading.start, heading.length) == 0)
            return i;
    }
    return SIZE_MAX;
}

/* ---- how near a heading is to a field ---- */

#define PLAIN_MOST 41

/* Small letters, and one space for whatever stands between words: `Lathe time (min)` as `lathe time
 * min`. Cut short where it is long. */
static void write_plainly(char *plain, const char *text, size_t length)
{
    size_t used = 0;
    for (size_t i = 0; i < length && used < PLAIN_MOST - 1; i++) {
        char letter = text[i];
        if (length - i >= 3 && memcmp(text + i, "\xE2\x80", 2) == 0) {
            i += 2; /* a curly quote or a dash */
            continue;
        }
        bool capital = letter >= 'A' && letter <= 'Z';
        bool word = capital || (letter >= 'a' && letter <= 'z') ||
                    (letter >= '0' && letter <= '9') || (letter & 0x80);
        if (word)
            plain[used++] = capital ? (char)(letter - 'A' + 'a') : letter;
        else if (used > 0 && plain[used - 1] != ' ')
            plain[used++] = ' ';
    }
    while (used > 0 && plain[used - 1] == ' ')
        used--;
    plain[used] = '\0';
}

/* Whether the words of `part` stand in `heading`, one after the other. */
static bool has_words(const char *heading, const char *part)
{
    size_t length = strlen(part);
    for (const char *at = strstr(heading, part); at; at = strstr(at + 1, part))
        if ((at == heading || at[-1] == ' ') && (at[length] == ' ' || at[length] == '\0'))
            return true;
    return false;
}

static bool same_first_word(const char *left, const char *right)
{
    size_t length = strcspn(left, " ");
    return length > 0 && length == strcspn(right, " ") && memcmp(left, right, length) == 0;
}

enum { FIRST_WORD = PLAIN_MOST, WORD_WITHIN, NOT_NEAR };

/* The less, the nearer: letters that differ, then a first word in common, then all the words. */
static size_t nearness(const char *heading, const char *name)
{
    char plain[PLAIN_MOST];
    write_plainly(plain, name, strlen(name));
    struct near near = near_to(plain, strlen(plain));
    near_offer(&near, heading);
    if (*plain && strcmp(plain, heading) == 0)
        return 0;
    /* Stricter than for a slip in a command: words of a sheet may well be others. */
    if (near.best && near.distance * 3 <= strlen(plain))
        return near.distance;
    if (same_first_word(heading, plain))
        return FIRST_WORD;
    return *plain && has_words(heading, plain) ? WORD_WITHIN : NOT_NEAR;
}

/* Under its column's heading or under its own name, which a maker may have taken for it. */
static size_t nearness_of_field(const char *heading, const groat_field *field)
{
    size_t by_column = nearness(heading, field->column), by_name = nearness(heading, field->name);
    return by_column < by_name ? by_column : by_name;
}

static size_t count_unused(const struct headings *headings)
{
    size_t count = 0;
    for (size_t i = 0; i < sheet_column_count(headings->sheet); i++)
        count += !headings->used[i];
    return count;
}

static size_t count_absent(const struct headings *headings)
{
    size_t count = 0;
    for (size_t i = 0; i < headings->fields_count; i++)
        count += headings->columns[i] == SIZE_MAX;
    return count;
}

/* The unused column that is nearest to a field, and how near. */
static size_t nearest_column(const struct headings *headings, const groat_field *field,
                             size_t *distance)
{
    size_t best = SIZE_MAX;
    *distance = NOT_NEAR;
    for (size_t i = 0; i < sheet_column_count(headings->sheet); i++) {
        struct sheet_text heading = sheet_heading(headings->sheet, i);
        char plain[PLAIN_MOST];
        if (headings->used[i])
            continue;
        write_plainly(plain, heading.start, heading.length);
        size_t found = nearness_of_field(plain, field);
        if (found < *distance) {
            *distance = found;
            best = i;
        }
    }
    return best;
}

/* A heading is proposed for one field only: the nearest. */
static void guess(struct headings *headings)
{
    size_t absent = count_absent(headings), unused = count_unused(headings);
    if (unused == 0 || absent > PAIRS_MOST / unused)
        return;
    size_t *distances = calloc(headings->fields_count + 1, sizeof *distances);
    for (size_t i = 0; distances && i < headings->fields_count; i++) {
        groat_field field = groat_method_field(headings->method, i);
        if (headings->columns[i] == SIZE_MAX)
            headings->guesses[i] = nearest_column(headings, &field, &distances[i]);
        for (size_t j = 0; j < i && headings->guesses[i] != SIZE_MAX; j++) {
            if (headings->guesses[j] != headings->guesses[i])
                continue;
            headings->guesses[distances[i] < distances[j] ? j : i] = SIZE_MAX;
        }
    }
    for (size_t i = 0; i < headings->fields_count; i++)
        if (headings->guesses[i] != SIZE_MAX)
            headings->used[headings->guesses[i]] = true;
    free(distances);
}

/* ---- what is said ---- */

/* A heading, cut where it is long, never inside a character. */
static void show(char shown[HEADING_SHOWN + 1], const struct sheet *sheet, size_t column)
{
    struct sheet_text heading = sheet_heading(sheet, column);
    size_t length = text_cut(heading.start, heading.length, HEADING_SHOWN);
    snprintf(shown, HEADING_SHOWN + 1, "%.*s", (int)length, heading.start);
}

/* `p.csv has no column for lathe, so every product counts with 0 min. Is it the column "Lathe
 * time"?` */
static void say_field(const struct headings *headings, size_t index)
{
    groat_field field = groat_method_field(headings->method, index);
    char shown[HEADING_SHOWN + 1], question[HEADING_SHOWN + 32] = "", column[256];
    if (headings->guesses[index] != SIZE_MAX) {
        show(shown, headings->sheet, headings->guesses[index]);
        snprintf(question, sizeof question, ". Is it the column \"%s\"?", shown);
    }
    if (strcmp(field.name, field.column) == 0)
        snprintf(column, sizeof column, "for %.200s", field.name);
    else
        snprintf(column, sizeof column, "\"%.100s\" for %.100s", field.column, field.name);
    if (field.default_text)
        say("%s has no column %s, so %s is used for every product%s", headings->file, column,
            field.default_text, question);
    else
        say("%s has no column %s, so the value is missing for every product%s", headings->file,
            column, question);
}

/* Whether no column is a field's, and none was guessed. */
static bool lacks(const struct headings *headings, size_t field, bool required)
{
    return headings->columns[field] == SIZE_MAX && headings->guesses[field] == SIZE_MAX &&
           groat_method_field(headings->method, field).required == required;
}

static bool is_guessed(const struct headings *headings, size_t field, bool required)
{
    return headings->guesses[field] != SIZE_MAX &&
           groat_method_field(headings->method, field).required == required;
}

/* A sheet need not have all fields; but where it has headings of its own that are nobody's, a field
 * may have lost its column to a new name. */
static void say_others(const struct headings *headings, bool again)
{
    size_t count = 0;
    for (size_t i = 0; i < headings->fields_count; i++)
        count += lacks(headings, i, false);
    if (count_unused(headings) == 0 || (again && count > SENTENCES_MOST))
        return;
    char begin[512];
    snprintf(begin, sizeof begin, "%.400s: every row is without", headings->file);
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < headings->fields_count; i++) {
        const char *column = groat_method_field(headings->method, i).column;
        if (!lacks(headings, i, false))
            continue;
        if (count > SENTENCES_MOST)
            say_list_item(&list, column, strlen(column));
        else
            say_field(headings, i);
    }
    say_list_end(&list);
}

static void say_fields(const struct headings *headings, bool again)
{
    say_others(headings, again);
    for (size_t i = 0; i < headings->fields_count; i++)
        if (is_guessed(headings, i, false))
            say_field(headings, i);
}

void headings_say_unused(struct headings *headings, size_t also_used)
{
    char begin[512];
    if (also_used != SIZE_MAX)
        headings->used[also_used] = true;
    guess(headings);
    if (!say_takes_notes())
        return;
    snprintf(begin, sizeof begin, "%.400s: not used by the rules", headings->file);
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < sheet_column_count(headings->sheet); i++) {
        struct sheet_text heading = sheet_heading(headings->sheet, i);
        if (!headings->used[i])
            say_list_item(&list, heading.start, heading.length);
    }
    say_list_end(&list);
    say_fields(headings, false);
}

void headings_say_again(const struct headings *headings)
{
    if (say_takes_notes())
        say_fields(headings, true);
}

/* ---- what is needed ---- */

/* What the columns that nobody guessed may be called anew. */
static void propose_unused(const struct headings *headings)
{
    char begin[512] = "", shown[HEADING_SHOWN + 1];
    size_t length = 0, needed = 0, unused = count_unused(headings);
    for (size_t i = 0; i < headings->fields_count; i++) {
        if (!lacks(headings, i, true) || length > 300)
            continue;
        length += (size_t)snprintf(
            begin + length, sizeof begin - length, "%s%.80s",
            needed ? ", " : "Try: ", groat_method_field(headings->method, i).column);
        needed++;
    }
    if (needed > 0 && unused == 0)
        say("%s, as a heading of its own", begin);
    if (needed == 0 || unused == 0)
        return;
    snprintf(begin + length, sizeof begin - length, " instead of%s",
             unused == 1   ? ""
             : needed == 1 ? " one of these"
                           : " some of these");
    struct say_list list = {.begin = begin};
    size_t said = 0;
    for (size_t i = 0; i < sheet_column_count(headings->sheet) && said < HEADINGS_SHOWN; i++) {
        if (headings->used[i])
            continue;
        show(shown, headings->sheet, i);
        if (unused == 1)
            say("%s %s", begin, shown);
        else
            say_list_item(&list, shown, strlen(shown));
        said++;
    }
    if (unused > said)
        say_list_item(&list, "...", 3);
    say_list_end(&list);
}

/* A sheet of one column, whose lines are not parted as a maker thought; false for any other. */
static bool propose_lines(const struct headings *headings)
{
    struct sheet_text heading = sheet_heading(headings->sheet, 0);
    struct sheet_text cell = sheet_cell(headings->sheet, 0, 0);
    if (sheet_column_count(headings->sheet) != 1)
        return false;
    bool parted = cell.start &&
                  (memchr(cell.start, ',', cell.length) || memchr(cell.start, ';', cell.length) ||
                   memchr(cell.start, '\t', cell.length));
    if (parted)
        say_try("put the headings in the first line, with nothing above them");
    else if (memchr(heading.start, ' ', heading.length) ||
             memchr(heading.start, '|', heading.length))
        say_try("put a comma between headings and between cells, or a tab in a .tsv file");
    else
        return false;
    return true;
}

static void propose(const struct headings *headings)
{
    char shown[HEADING_SHOWN + 1];
    if (propose_lines(headings))
        return;
    for (size_t i = 0; i < headings->fields_count; i++) {
        if (!is_guessed(headings, i, true))
            continue;
        show(shown, headings->sheet, headings->guesses[i]);
        say("Try: %s instead of %s", groat_method_field(headings->method, i).column, shown);
    }
    propose_unused(headings);
}

bool headings_has_required(const struct headings *headings, const char *rules)
{
    char begin[512];
    snprintf(begin, sizeof begin, "%.300s: columns are missing that %.150s need%s", headings->file,
             rules ? rules : "the rules", rules ? "s" : "");
    struct say_list list = {.begin = begin};
    for (size_t i = 0; i < headings->fields_count; i++) {
        groat_field field = groat_method_field(headings->method, i);
        if (field.required && headings->columns[i] == SIZE_MAX)
            say_list_item(&list, field.column, strlen(field.column));
    }
    bool all = list.count == 0;
    say_list_end(&list);
    if (!all)
        propose(headings);
    return all;
}
