#include "listing/listing.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <uniwidth.h>

#include "listing/forms.h"

static const struct form *const forms[] = {
    [LISTING_TABLE] = &form_table, [LISTING_CSV] = &form_csv, [LISTING_JSON] = &form_json};

bool listing_form_of_word(const char *word, enum listing_form *form)
{
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++) {
        if (strcmp(forms[i]->word, word) == 0) {
            *form = (enum listing_form)i;
            return true;
        }
    }
    return false;
}

groat_text listing_text(const char *text)
{
    return (groat_text){text, text ? strlen(text) : 0};
}

unsigned listing_width(const char *start, size_t length)
{
    int width = u8_width((const uint8_t *)start, length, "UTF-8");
    return width > 0 ? (unsigned)width : 0;
}

struct figure form_figure(enum listing_look look, const struct listing_cell *cell)
{
    if (!cell->amount)
        return (struct figure){.value = cell->value};
    return bytes_figure(cell->amount, look == LISTING_MONEY ? GROAT_KIND_MONEY : cell->value.kind);
}

void form_whole(struct bytes *bytes, const struct listing_cell *cell)
{
    if (cell->amount)
        bytes_places(bytes, form_figure(LISTING_WHOLE, cell), 0, '.');
    else
        bytes_whole(bytes, cell->whole);
}

bool form_flush(struct listing *list)
{
    struct bytes *line = &list->line;
    if (line->failed) {
        errno = ENOMEM;
        return false;
    }
    if (!list->out)
        return true;
    size_t length = line->length;
    line->length = 0;
    return length == 0 || fwrite(line->start, 1, length, list->out) == length;
}

struct listing *listing_open(const struct listing_plan *plan, FILE *out)
{
    struct listing *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    list->plan = *plan;
    list->out = out;
    if (forms[plan->form]->open(list))
        return list;
    listing_close(list, false);
    return NULL;
}

/* Why an amount of the row could not be worked out; NUM_OK where all could. */
static enum num_status failure_of(const struct listing *list, const struct listing_row *row)
{
    for (size_t i = 0; i < list->plan.columns_count; i++)
        if (row->cells[i].amount && row->cells[i].amount->status != NUM_OK)
            return row->cells[i].amount->status;
    return NUM_OK;
}

/* The row with one note more. */
static bool add_too_large(struct listing *list, struct listing_row row)
{
    const char **notes = malloc((row.notes_count + 1) * sizeof *notes);
    errno = ENOMEM;
    if (!notes)
        return false;
    for (size_t i = 0; i < row.notes_count; i++)
        notes[i] = row.notes[i];
    notes[row.notes_count++] = "a number has too many digits";
    row.notes = notes;
    bool written = forms[list->plan.form]->add(list, &row);
    int why = errno;
    free(notes);
    errno = why;
    return written;
}

bool listing_add(struct listing *list, const struct listing_row *row)
{
    enum num_status failure = failure_of(list, row);
    errno = ENOMEM;
    if (failure == NUM_NO_MEMORY)
        return false;
    bool written = failure == NUM_TOO_LARGE ? add_too_large(list, *row)
                                            : forms[list->plan.form]->add(list, row);
    list->rows++;
    return written;
}

bool listing_close(struct listing *list, bool whole)
{
    const struct form *form = forms[list->plan.form];
    bool written = !whole || form->finish(list);
    int why = errno;
    if (form->free)
        form->free(list);
    bytes_free(&list->line);
    free(list);
    errno = why;
    return written;
}

/* ---- parts ---- */

/* A list of its own, of which every row is one after the first. */
struct listing_part {
    struct listing list;
};

struct listing_part *listing_part_new(const struct listing *list)
{
    struct listing_part *part = calloc(1, sizeof *part);
    if (part)
        part->list = (struct listing){.plan = list->plan, .rows = 1};
    return part;
}

void listing_part_free(struct listing_part *part)
{
    if (part)
        bytes_free(&part->list.line);
    free(part);
}

bool listing_part_add(struct listing_part *part, const struct listing_row *row)
{
    return listing_add(&part->list, row);
}

bool listing_join(struct listing *list, struct listing_part *part)
{
    struct bytes *rows = &part->list.line;
    size_t skipped = list->rows > 0 || rows->length == 0 ? 0 : forms[list->plan.form]->between;
    if (rows->failed) {
        errno = ENOMEM;
        return false;
    }
    size_t length = rows->length - skipped;
    bool written = length == 0 || fwrite(rows->start + skipped, 1, length, list->out) == length;
    list->rows += part->list.rows - 1;
    part->list.rows = 1;
    rows->length = 0;
    return written;
}
