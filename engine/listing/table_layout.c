/* Printing a table: how wide its columns are, which of several shapes it takes, and its lines.
 *
 * Beside:   each row on a line that begins with its product, said once.
 * Grouped:  the product on a line of its own, its rows indented under it.
 * Compact:  grouped, and the extra columns are said under the row like its notes.
 *
 * Before a table takes the next shape, its headings take as many lines as they can, it does without
 * the columns that are there only if there is room, and at last its columns stand closer. */
#include "listing/table.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum shape { BESIDE, GROUPED, COMPACT };

#define GAP 2          /* between columns */
#define CLOSE_GAP 1    /* the same where they stand close */
#define GROUP_INDENT 2 /* of rows under their product */
#define NOTE_INDENT 4  /* of notes, from where their row begins */

struct column {
    unsigned left, right; /* before the decimal mark, and from it on */
    unsigned width;       /* with the heading */
    unsigned lines;       /* of the heading */
};

struct layout {
    struct listing *list;
    struct column *columns;
    enum shape shape;
    bool short_of_room; /* it does without what is there only if there is room */
    bool close;         /* its columns stand closer, but for as many of the first ones as can do */
    size_t wide_gaps;   /* otherwise */
    unsigned width;
    unsigned heading_lines;
};

/* ---- headings ---- */

/* The next line of a text that is cut at spaces, and behind hyphens too if so wanted, to fit a width;
 * a longer word stands alone. Moves `*text` behind it. */
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

/* The line of a column's heading, from 0, its unit last; an empty text past its end. */
static groat_text heading_line(const struct listing_column *column, size_t width, unsigned wanted)
{
    const char *parts[] = {column->heading, column->unit};
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
    const struct listing_column *given = &layout->list->plan.columns[index];
    column->lines = 0;
    while (heading_line(given, column->width, column->lines).length > 0)
        column->lines++;
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
    for (size_t i = 0; i < count; i++) {
        const struct listing_column *given = &list->plan.columns[i];
        struct column *column = &layout->columns[i];
        column->width = larger(column->left + column->right,
                               larger(longest_word(given->heading), longest_word(given->unit)));
        count_heading_lines(layout, i);
    }
    return true;
}

static bool in_line(const struct layout *layout, size_t column)
{
    const struct listing *list = layout->list;
    const struct listing_column *given = &list->plan.columns[column];
    if (column == 0 && layout->shape != BESIDE)
        return false;
    if (layout->shape == COMPACT && given->extra)
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
    return layout->shape == BESIDE ? 0 : GROUP_INDENT;
}

/* Where their notes do: never under the product, which they would seem to be about. */
static unsigned note_indent(const struct layout *layout)
{
    return (layout->shape == BESIDE ? layout->columns[0].width + GAP : GROUP_INDENT) + NOTE_INDENT;
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
        bool short_of_room, close;
    } choices[] = {{BESIDE, false, false}, {GROUPED, false, false}, {BESIDE, true, false},
                   {GROUPED, true, false}, {GROUPED, true, true},   {COMPACT, true, false},
                   {COMPACT, true, true}};
    for (size_t i = 0; i < sizeof choices / sizeof *choices; i++) {
        layout->shape = choices[i].shape;
        layout->short_of_room = choices[i].short_of_room;
        layout->close = choices[i].close;
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
    unsigned least = layout->list->plan.columns[index].unit ? 2 : 1;
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
        for (size_t i = 1; i < count && !widened; i++)
            widened = lines_to_spare(layout, i) == tall && widen_heading(layout, i);
        if (!widened)
            tall--;
    }
}

/* ---- lines ---- */

static void pad(struct bytes *line, unsigned count)
{
    for (; count > 0; count--)
        bytes_char(line, ' ');
}

static bool end_line(struct listing *list)
{
    struct bytes *line = &list->line;
    while (line->length > 0 && line->start[line->length - 1] == ' ')
        line->length--;
    bytes_char(line, '\n');
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
    pad(line, row_indent(layout));
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        if (!in_line(layout, i))
            continue;
        const struct column *column = &layout->columns[i];
        unsigned above = layout->heading_lines - column->lines;
        groat_text text = {"", 0};
        if (wanted >= above)
            text = heading_line(&list->plan.columns[i], column->width, wanted - above);
        unsigned space = column->width - listing_width(text.start, text.length);
        bool is_text = table_column_is_text(list, i);
        pad(line, gap_before(layout, columns++) + (is_text ? 0 : space));
        bytes_put(line, text.start, text.length);
        pad(line, is_text ? space : 0);
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
        pad(line, gap);
        bytes_put(line, table_text(list->table, cell), cell->length);
        pad(line, column->width - cell->width);
        return;
    }
    unsigned before = column->width - column->left - column->right + column->left - cell->left;
    pad(line, gap + before);
    bytes_put(line, table_text(list->table, cell), cell->length);
    pad(line, column->width - before - cell->width);
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
        pad(&list->line, indent);
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
        bytes_text(&text, text.length > 0 ? "; " : "");
        bytes_text(&text, column->heading);
        bytes_text(&text, ": ");
        bytes_put(&text, table_text(list->table, &cells[i]), cells[i].length);
        bytes_text(&text, column->unit ? " " : "");
        bytes_text(&text, column->unit ? column->unit : "");
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
    if (layout->shape != BESIDE && !row->same) {
        bytes_put(&list->line, table_text(list->table, &cells[0]), cells[0].length);
        if (!end_line(list))
            return false;
    }
    pad(&list->line, row_indent(layout));
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
    if (!measure_columns(&layout))
        return false;
    choose_shape(&layout);
    widen_gaps(&layout);
    widen_headings(&layout);
    bool printed = print_all(&layout);
    int why = errno;
    free(layout.columns);
    errno = why;
    return printed;
}
