/* Printing a table: how wide its columns are, which of several shapes it takes, and its lines.
 *
 * Beside:   each row on a line that begins with its product, said once.
 * Grouped:  the product on a line of its own, its rows indented under it.
 * Compact:  grouped, and the extra columns are said under the row like its notes.
 * Brief:    beside, without the extra columns; of a ranked table in place of the last two.
 *
 * Before a table takes the next shape, its headings take as many lines as they can, a currency that
 * is a word goes from the cells into the headings, it does without the columns that are there only
 * if there is room, and at last its columns stand closer. */
#include "listing/table.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "text/money.h"

enum shape { BESIDE, GROUPED, COMPACT, BRIEF };

#define GAP 2          /* between columns */
#define CLOSE_GAP 1    /* the same where they stand close */
#define GROUP_INDENT 2 /* of rows under their product */
#define NOTE_INDENT 4  /* of notes, from where their row begins */

struct column {
    unsigned left, right; /* before the decimal mark, and from it on */
    unsigned width;       /* with the heading */
    unsigned lines;       /* of the heading */
    unsigned sign;        /* how much of `right` is the word behind every amount */
    char *unit; /* with that word, where the heading has it and a unit of its own; or NULL */
};

struct layout {
    struct listing *list;
    struct column *columns;
    enum shape shape;
    bool short_of_room; /* it does without what is there only if there is room */
    bool bare;          /* the headings have the currency's word, and the cells do not */
    bool close;         /* its columns stand closer, but for as many of the first ones as can do */
    size_t wide_gaps;   /* otherwise */
    unsigned width;
    unsigned heading_lines;
};

/* ---- headings ---- */

/* The next line of a text that is cut at spaces, and behind hyphens too if so wanted, to fit a
 * width; a longer word stands alone. Moves `*text` behind it. */
static groat_text next_line(const char **text, size_t width, bool at_hyphens)
{
    const char *start = *text, *best = NULL;
    for (const char *at = start;; at++) {
        bool hyphen = at_hyphens && at > start && at[-1] == '-';
        if (*at != ' ' && *at != '\0' && !hyphen)
            continue;
        if (best && listing_width(start, (size_t)(at - start)) > width)
            break;
        best = at;
        if (*at == '\0')
            break;
    }
    *text = *best == ' ' ? best + 1 : best;
    return (groat_text){start, (size_t)(best - start)};
}

static unsigned longest_word(const char *text)
{
    unsigned longest = 0;
    while (text && *text) {
        groat_text word = next_line(&text, 0, true);
        unsigned width = listing_width(word.start, word.length);
        longest = width > longest ? width : longest;
    }
    return longest;
}

/* What stands under a heading; NULL: nothing. */
static const char *unit_of(const struct layout *layout, size_t index)
{
    const struct column *column = &layout->columns[index];
    const char *unit = layout->list->plan.columns[index].unit;
    if (!layout->bare || column->sign == 0)
        return unit;
    return column->unit ? column->unit : layout->list->plan.currency.symbol;
}

/* The line of a column's heading, from 0, its unit last; an empty text past its end. */
static groat_text heading_line(const struct layout *layout, size_t index, unsigned wanted)
{
    const char *parts[] = {layout->list->plan.columns[index].heading, unit_of(layout, index)};
    size_t width = layout->columns[index].width;
    unsigned line = 0;
    for (size_t i = 0; i < 2; i++) {
        const char *text = parts[i];
        while (text && *text) {
            groat_text found = next_line(&text, width, true);
            if (line++ == wanted)
                return found;
        }
    }
    return (groat_text){"", 0};
}

/* ---- widths ---- */

static unsigned larger(unsigned a, unsigned b)
{
    return a > b ? a : b;
}

static void count_heading_lines(struct layout *layout, size_t index)
{
    struct column *column = &layout->columns[index];
    column->lines = 0;
    while (heading_line(layout, index, column->lines).length > 0)
        column->lines++;
}

/* Whether every amount of a column has the currency's word behind it, which then its heading could
 * have. False when memory runs out. */
static bool find_sign(struct layout *layout, size_t index)
{
    const struct listing *list = layout->list;
    const char *symbol = list->plan.currency.symbol, *unit = list->plan.columns[index].unit;
    struct column *column = &layout->columns[index];
    size_t length = symbol ? strlen(symbol) : 0;
    if (!symbol || !text_sign_is_word(symbol, length) || table_column_is_text(list, index))
        return true;
    size_t amounts = 0;
    for (size_t row = 0; row < list->table->count; row++) {
        const struct table_cell *cell = &list->table->cells[row * list->plan.columns_count + index];
        if (cell->length > 0 && !cell->money)
            return true;
        amounts += cell->length > 0;
    }
    if (amounts == 0)
        return true;
    column->sign = 1 + listing_width(symbol, length);
    if (!unit)
        return true;
    bool word = (unit[0] | 0x20) >= 'a' && (unit[0] | 0x20) <= 'z'; /* `kr per h`, `kr in all` */
    column->unit = malloc(strlen(unit) + length + sizeof ", ");
    if (column->unit)
        sprintf(column->unit, word ? "%s %s" : "%s, %s", word ? symbol : unit,
                word ? unit : symbol);
    return column->unit != NULL;
}

static bool measure_columns(struct layout *layout)
{
    const struct listing *list = layout->list;
    size_t count = list->plan.columns_count;
    layout->columns = calloc(count + 1, sizeof *layout->columns);
    if (!layout->columns)
        return false;
    const struct table_cell *cell = list->table->cells;
    for (size_t row = 0; row < list->table->count; row++) {
        for (size_t i = 0; i < count; i++, cell++) {
            layout->columns[i].left = larger(layout->columns[i].left, cell->left);
            layout->columns[i].right = larger(layout->columns[i].right, cell->width - cell->left);
        }
    }
    for (size_t i = 0; i < count; i++)
        if (!find_sign(layout, i))
            return false;
    return true;
}

static unsigned right_of(const struct layout *layout, const struct column *column)
{
    return column->right - (layout->bare ? column->sign : 0);
}

/* As narrow as the columns can be. */
static void settle_widths(struct layout *layout)
{
    const struct listing *list = layout->list;
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        struct column *column = &layout->columns[i];
        column->width = larger(
            column->left + right_of(layout, column),
            larger(longest_word(list->plan.columns[i].heading), longest_word(unit_of(layout, i))));
        count_heading_lines(layout, i);
    }
}

static bool is_beside(const struct layout *layout)
{
    return layout->shape == BESIDE || layout->shape == BRIEF;
}

static bool in_line(const struct layout *layout, size_t column)
{
    const struct listing *list = layout->list;
    const struct listing_column *given = &list->plan.columns[column];
    if (column == 0 && !is_beside(layout))
        return false;
    if ((layout->shape == COMPACT || layout->shape == BRIEF) && given->extra)
        return false;
    if (layout->short_of_room && (given->omission & LISTING_IF_ROOM))
        return false;
    return list->table->needed[column] || (list->table->count == 0 && given->heading);
}

/* What stands before a column of which so many come before it in the line. */
static unsigned gap_before(const struct layout *layout, unsigned columns)
{
    if (columns == 0)
        return 0;
    return layout->close && columns > layout->wide_gaps ? CLOSE_GAP : GAP;
}

/* Where the rows begin. */
static unsigned row_indent(const struct layout *layout)
{
    return is_beside(layout) ? 0 : GROUP_INDENT;
}

/* Where their notes do: never under the product, which they would seem to be about. */
static unsigned note_indent(const struct layout *layout)
{
    return (is_beside(layout) ? layout->columns[0].width + GAP : GROUP_INDENT) + NOTE_INDENT;
}

/* How wide a line is, and how tall the headings, in the layout's shape. */
static void measure_lines(struct layout *layout)
{
    unsigned columns = 0;
    layout->width = row_indent(layout);
    layout->heading_lines = 0;
    for (size_t i = 0; i < layout->list->plan.columns_count; i++) {
        if (!in_line(layout, i))
            continue;
        layout->width += layout->columns[i].width + gap_before(layout, columns++);
        layout->heading_lines = larger(layout->heading_lines, layout->columns[i].lines);
    }
}

static void choose_shape(struct layout *layout)
{
    static const struct {
        enum shape shape;
        bool bare, short_of_room, close;
    } choices[] = {
        {BESIDE, false, false, false}, {BESIDE, true, false, false}, {GROUPED, false, false, false},
        {GROUPED, true, false, false}, {BESIDE, true, true, false},  {GROUPED, true, true, false},
        {GROUPED, true, true, true},   {BRIEF, true, true, false},   {BRIEF, true, true, true},
        {COMPACT, false, true, false}, {COMPACT, true, true, false}, {COMPACT, true, true, true},
    };
    bool ranked = layout->list->plan.ranked;
    for (size_t i = 0; i < sizeof choices / sizeof *choices; i++) {
        enum shape shape = choices[i].shape;
        if (ranked ? shape == GROUPED || shape == COMPACT : shape == BRIEF)
            continue;
        layout->shape = shape;
        layout->bare = choices[i].bare;
        layout->short_of_room = choices[i].short_of_room;
        layout->close = choices[i].close;
        settle_widths(layout);
        measure_lines(layout);
        if (layout->width <= layout->list->plan.width)
            return;
    }
}

/* Where columns stand close and there is space left, the first ones do not. */
static void widen_gaps(struct layout *layout)
{
    while (layout->close && layout->width < layout->list->plan.width) {
        unsigned before = layout->width;
        layout->wide_gaps++;
        measure_lines(layout);
        if (layout->width == before)
            return;
    }
}

/* How many lines a heading takes beyond those it cannot do without. */
static unsigned lines_to_spare(const struct layout *layout, size_t index)
{
    unsigned least = unit_of(layout, index) ? 2 : 1;
    unsigned lines = in_line(layout, index) ? layout->columns[index].lines : 0;
    return lines > least ? lines - least : 0;
}

/* Makes a heading a line shorter by making its column wider. False when there is no space for that;
 * then the column is as it was. */
static bool widen_heading(struct layout *layout, size_t index)
{
    struct column *column = &layout->columns[index];
    struct column before = *column;
    size_t space = layout->list->plan.width - layout->width;
    while (space-- > 0) {
        column->width++;
        count_heading_lines(layout, index);
        if (column->lines < before.lines) {
            measure_lines(layout);
            return true;
        }
    }
    *column = before;
    return false;
}

/* Where there is space left, the tallest headings become wider instead. */
static void widen_headings(struct layout *layout)
{
    size_t count = layout->list->plan.columns_count;
    unsigned tall = layout->heading_lines;
    while (tall > 0 && layout->width < layout->list->plan.width) {
        bool widened = false;
        for (size_t i = 0; i < count && !widened; i++)
            widened = lines_to_spare(layout, i) == tall && widen_heading(layout, i);
        if (!widened)
            tall--;
    }
}

/* ---- lines ---- */

static bool end_line(struct listing *list)
{
    bytes_trim(&list->line);
    bytes_char(&list->line, '\n');
    return form_flush(list);
}

/* One line of all headings. Short ones stand at the bottom, next to their column. */
static bool print_heading_line(struct layout *layout, unsigned wanted)
{
    struct listing *list = layout->list;
    struct bytes *line = &list->line;
    unsigned columns = 0;
    if (list->plan.bold)
        bytes_text(line, "\033[1m");
    bytes_spaces(line, row_indent(layout));
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!in_line(layout, i))
            continue;
        const struct column *column = &layout->columns[i];
        unsigned above = layout->heading_lines - column->lines;
        groat_text text = {"", 0};
        if (wanted >= above)
            text = heading_line(layout, i, wanted - above);
        unsigned space = column->width - listing_width(text.start, text.length);
        bool is_text = table_column_is_text(list, i);
        bytes_spaces(line, gap_before(layout, columns++) + (is_text ? 0 : space));
        bytes_put(line, text.start, text.length);
        bytes_spaces(line, is_text ? space : 0);
    }
    if (list->plan.bold)
        bytes_text(line, "\033[0m");
    return end_line(list);
}

static bool print_headings(struct layout *layout)
{
    struct listing *list = layout->list;
    for (unsigned i = 0; i < layout->heading_lines; i++)
        if (!print_heading_line(layout, i))
            return false;
    for (unsigned i = 0; i < layout->width; i++)
        bytes_char(&list->line, '-');
    return end_line(list);
}

static void put_cell(struct layout *layout, size_t index, const struct table_cell *cell,
                     unsigned gap)
{
    struct listing *list = layout->list;
    struct bytes *line = &list->line;
    const struct column *column = &layout->columns[index];
    if (table_column_is_text(list, index)) {
        bytes_spaces(line, gap);
        bytes_put(line, table_text(list->table, cell), cell->length);
        bytes_spaces(line, column->width - cell->width);
        return;
    }
    unsigned before = column->width - right_of(layout, column) - cell->left;
    bool bare = layout->bare && column->sign > 0 && cell->length > 0;
    size_t unsaid = bare ? 1 + strlen(list->plan.currency.symbol) : 0;
    bytes_spaces(line, gap + before);
    bytes_put(line, table_text(list->table, cell), cell->length - unsaid);
    bytes_spaces(line, column->width - before - (cell->width - (bare ? column->sign : 0)));
}

/* A text under a row, in as many lines as it takes. */
static bool print_note(struct layout *layout, const char *text)
{
    struct listing *list = layout->list;
    unsigned indent = note_indent(layout);
    size_t most =
        list->plan.width > larger(layout->width, 60) ? list->plan.width : larger(layout->width, 60);
    size_t width = most > indent + 20 ? most - indent : 20;
    while (*text) {
        groat_text part = next_line(&text, width, false);
        bytes_spaces(&list->line, indent);
        bytes_put(&list->line, part.start, part.length);
        if (!end_line(list))
            return false;
    }
    return true;
}

/* The extra columns of a row, as a note: `Earned per hour: 40.38 USD per h; Fancy: no`. */
static bool print_extras(struct layout *layout, const struct table_cell *cells)
{
    struct listing *list = layout->list;
    struct bytes text = {0};
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        const struct listing_column *column = &list->plan.columns[i];
        if (!column->extra || !list->table->needed[i] || cells[i].length == 0)
            continue;
        bytes_format(&text, "%s%s: ", text.length > 0 ? "; " : "", column->heading);
        bytes_put(&text, table_text(list->table, &cells[i]), cells[i].length);
        bytes_format(&text, "%s%s", column->unit ? " " : "", column->unit ? column->unit : "");
    }
    bytes_char(&text, '\0');
    errno = ENOMEM;
    bool printed = !text.failed && print_note(layout, text.start);
    bytes_free(&text);
    return printed;
}

static bool print_notes(struct layout *layout, const struct table_row *row)
{
    const char *note = layout->list->table->texts.start + row->notes;
    for (unsigned i = 0; i < row->notes_count; i++) {
        if (!print_note(layout, note))
            return false;
        note += strlen(note) + 1;
    }
    return true;
}

static bool print_row(struct layout *layout, const struct table_row *row,
                      const struct table_cell *cells)
{
    struct listing *list = layout->list;
    static const struct table_cell nothing = {0};
    if (!is_beside(layout) && !row->same) {
        bytes_put(&list->line, table_text(list->table, &cells[0]), cells[0].length);
        if (!end_line(list))
            return false;
    }
    bytes_spaces(&list->line, row_indent(layout));
    unsigned columns = 0;
    for (size_t i = 0; i < list->plan.columns_count; i++)
        if (in_line(layout, i))
            put_cell(layout, i, i == 0 && row->same ? &nothing : &cells[i],
                     gap_before(layout, columns++));
    if (!end_line(list))
        return false;
    if (layout->shape == COMPACT && !print_extras(layout, cells))
        return false;
    return print_notes(layout, row);
}

static bool print_all(struct layout *layout)
{
    const struct table *table = layout->list->table;
    size_t columns = layout->list->plan.columns_count;
    if (!print_headings(layout))
        return false;
    for (size_t i = 0; i < table->count; i++)
        if (!print_row(layout, &table->rows[i], table->cells + i * columns))
            return false;
    return true;
}

bool table_print(struct listing *list)
{
    struct layout layout = {.list = list};
    if (list->table->count == 0 && list->plan.nothing) {
        bytes_text(&list->line, list->plan.nothing);
        return end_line(list);
    }
    errno = ENOMEM;
    bool printed = measure_columns(&layout);
    if (printed) {
        choose_shape(&layout);
        widen_gaps(&layout);
        widen_headings(&layout);
        printed = print_all(&layout);
    }
    int why = errno;
    for (size_t i = 0; layout.columns && i < list->plan.columns_count; i++)
        free(layout.columns[i].unit);
    free(layout.columns);
    errno = why;
    return printed;
}
