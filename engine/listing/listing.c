#include "listing/listing.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <uniwidth.h>

#include "listing/forms.h"
#include "study/taken.h"

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

const char *form_note(const struct listing *list, const char *before)
{
    const char *note = before ? before + strlen(before) + 1 : list->notes.start;
    return list->notes.length > 0 && note < list->notes.start + list->notes.length ? note : NULL;
}

bool form_flush(struct listing *list)
{
    if (list->out)
        return bytes_flush(&list->line, list->out);
    errno = ENOMEM;
    return !list->line.failed;
}

/* ---- lists ---- */

static struct listing *make(const struct listing_plan *plan, FILE *out)
{
    struct listing *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    list->plan = *plan;
    list->out = out;
    amounts_open(&list->room);
    list->cells = calloc(plan->columns_count + 1, sizeof *list->cells);
    if (list->cells)
        return list;
    listing_close(list, false);
    return NULL;
}

struct listing *listing_open(const struct listing_plan *plan, FILE *out)
{
    struct listing *list = make(plan, out);
    if (!list || forms[plan->form]->open(list))
        return list;
    listing_close(list, false);
    return NULL;
}

struct listing_cell *listing_cells(struct listing *list)
{
    return list->cells;
}

struct amounts *listing_room(struct listing *list)
{
    return &list->room;
}

struct bytes *listing_notes(struct listing *list)
{
    return &list->notes;
}

void listing_note(struct listing *list, const char *note)
{
    bytes_put(&list->notes, note, strlen(note) + 1);
}

void listing_drop(struct listing *list)
{
    memset(list->cells, 0, list->plan.columns_count * sizeof *list->cells);
    list->notes.length = 0;
    amounts_forget(&list->room);
}

/* Makes amounts of the values that are amounts. Returns the worst reason for which an amount of the
 * row could not be worked out; NUM_OK if all could. */
static enum num_status settle_amounts(struct listing *list)
{
    enum num_status worst = NUM_OK;
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        struct listing_cell *cell = &list->cells[i];
        if (list->plan.columns[i].look == LISTING_MONEY)
            cell->value.kind = GROAT_KIND_MONEY;
        if (taken_is_amount(cell->value.kind) && cell->value.presence == GROAT_THERE)
            cell->amount = taken(&list->room, cell->value);
        worst = cell->amount.status > worst ? cell->amount.status : worst;
    }
    return worst;
}

bool listing_add(struct listing *list, size_t group)
{
    enum num_status failure = settle_amounts(list);
    if (failure == NUM_TOO_LARGE)
        listing_note(list, "a number has too many digits");
    errno = ENOMEM;
    bool added =
        failure != NUM_NO_MEMORY && !list->notes.failed && forms[list->plan.form]->add(list, group);
    list->rows++;
    listing_drop(list);
    return added;
}

bool listing_close(struct listing *list, bool whole)
{
    const struct form *form = forms[list->plan.form];
    bool written = !whole || form->finish(list);
    int why = errno;
    if (form->free)
        form->free(list);
    bytes_free(&list->line);
    bytes_free(&list->notes);
    amounts_close(&list->room);
    free(list->cells);
    free(list);
    errno = why;
    return written;
}

/* ---- parts: every row of one comes after the first ---- */

struct listing *listing_part(const struct listing *list)
{
    struct listing *part = make(&list->plan, NULL);
    if (part)
        part->rows = 1;
    return part;
}

bool listing_join(struct listing *list, struct listing *part)
{
    struct bytes *rows = &part->line;
    size_t skipped = list->rows > 0 || rows->length == 0 ? 0 : forms[list->plan.form]->between;
    if (rows->failed) {
        errno = ENOMEM;
        return false;
    }
    size_t length = rows->length - skipped;
    bool written = length == 0 || fwrite(rows->start + skipped, 1, length, list->out) == length;
    list->rows += part->rows - 1;
    part->rows = 1;
    rows->length = 0;
    return written;
}
