#define _POSIX_C_SOURCE 200809L
#include "listing/listing.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <uniwidth.h>

#include "listing/forms.h"
#include "study/taken.h"

static const struct form *const forms[] = {[LISTING_TABLE] = &form_table,
                                           [LISTING_CSV] = &form_csv,
                                           [LISTING_JSON] = &form_json,
                                           [LISTING_NDJSON] = &form_ndjson};

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

/* Decimals in JSON beyond those of the currency; and of what is no money. */
#define JSON_MONEY_MORE 6
#define JSON_PLACES 10

unsigned form_json_places(const struct listing *list, const struct listing_column *column,
                          const struct listing_cell *cell)
{
    unsigned coins = list->plan.currency.decimals;
    if (list->plan.exact)
        return cell->value.kind == GROAT_KIND_MONEY ? coins : 0;
    if (column->look == LISTING_COINS || column->look == LISTING_MONEY_EXACT)
        return coins;
    return cell->value.kind == GROAT_KIND_MONEY ? coins + JSON_MONEY_MORE : JSON_PLACES;
}

/* ---- which columns ---- */

static const struct listing_column notes_column = {"notes",        NULL,  NULL, LISTING_NOTES,
                                                   LISTING_ALWAYS, false, NULL};

static bool is_data(const struct listing_plan *plan)
{
    return plan->form != LISTING_TABLE;
}

/* All columns as they are given, and the notes. */
static void take_all(struct listing *list, const struct listing_plan *plan)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->columns_count; i++) {
        if (is_data(plan) && (plan->columns[i].omission & LISTING_IF_CHOSEN))
            continue;
        list->columns[count] = plan->columns[i];
        list->from[count++] = i;
    }
    list->columns[count] = notes_column;
    list->from[count++] = plan->columns_count;
    list->plan.columns_count = count;
}

/* The column of this name; the count of the columns for the notes, SIZE_MAX for no column. */
static size_t find_column(const struct listing_plan *plan, const char *name)
{
    for (size_t i = 0; i < plan->columns_count; i++)
        if (plan->columns[i].name && strcmp(plan->columns[i].name, name) == 0)
            return i;
    return strcmp(name, notes_column.name) == 0 ? plan->columns_count : SIZE_MAX;
}

/* A heading for a table from a name: `Take home`. NULL when memory runs out. */
static char *heading_of(const char *name)
{
    char *heading = strdup(name);
    for (char *at = heading; at && *at; at++)
        if (*at == '_')
            *at = ' ';
    if (heading && heading[0] >= 'a' && heading[0] <= 'z')
        heading[0] = (char)(heading[0] - 'a' + 'A');
    return heading;
}

/* A chosen column is shown whatever it says, except that one which a table alone has the room to
 * leave out may be. */
static bool take_chosen(struct listing *list, const struct listing_plan *plan)
{
    const struct listing_choice *choice = plan->choice;
    for (size_t i = 0; i < choice->count; i++) {
        size_t found = find_column(plan, choice->names[i]);
        if (found == SIZE_MAX) {
            choice->unknown(plan->columns, plan->columns_count, choice->names[i]);
            errno = ECANCELED;
            return false;
        }
        bool notes = found == plan->columns_count;
        struct listing_column *column = &list->columns[i];
        *column = notes ? notes_column : plan->columns[found];
        column->extra = false;
        if (!(column->omission & LISTING_IF_CHOSEN))
            column->omission = LISTING_ALWAYS;
        list->from[i] = found;
        if (!notes && !column->heading &&
            !(column->heading = list->headings[i] = heading_of(column->name)))
            return false;
    }
    list->plan.columns_count = choice->count;
    return true;
}

static bool take_columns(struct listing *list, const struct listing_plan *plan)
{
    size_t chosen = plan->choice ? plan->choice->count : 0, most = plan->columns_count + 1;
    most = chosen > most ? chosen : most;
    list->given = plan->columns_count;
    list->all = calloc(most, sizeof *list->all);
    list->columns = calloc(most, sizeof *list->columns);
    list->from = calloc(most, sizeof *list->from);
    list->row = calloc(most, sizeof *list->row);
    list->headings = calloc(most, sizeof *list->headings);
    errno = ENOMEM;
    if (!list->all || !list->columns || !list->from || !list->row || !list->headings)
        return false;
    memcpy(list->all, plan->columns, plan->columns_count * sizeof *list->all);
    list->asked.columns = list->all;
    list->plan.columns = list->columns;
    if (plan->choice)
        return take_chosen(list, plan);
    take_all(list, plan);
    return true;
}

/* ---- lists ---- */

static struct listing *make(const struct listing_plan *plan, FILE *out)
{
    struct listing *list = calloc(1, sizeof *list);
    if (!list)
        return NULL;
    list->plan = list->asked = *plan;
    list->out = out;
    amounts_open(&list->room);
    list->cells = calloc(plan->columns_count + 1, sizeof *list->cells);
    if (list->cells && take_columns(list, plan))
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

struct bytes *listing_summary(struct listing *list)
{
    return &list->summary;
}

void listing_note(struct listing *list, const char *note)
{
    bytes_put(&list->notes, note, strlen(note) + 1);
}

void listing_drop(struct listing *list)
{
    memset(list->cells, 0, list->given * sizeof *list->cells);
    list->notes.length = 0;
    amounts_forget(&list->room);
}

/* Makes amounts of the values that are amounts. Returns the worst reason for which an amount of the
 * row could not be worked out; NUM_OK if all could. */
static enum num_status settle_amounts(struct listing *list)
{
    enum num_status worst = NUM_OK;
    for (size_t i = 0; i < list->plan.columns_count; i++) {
        enum listing_look look = list->plan.columns[i].look;
        struct listing_cell *cell = &list->row[i];
        *cell = list->cells[list->from[i]];
        if (look == LISTING_MONEY || look == LISTING_COINS || look == LISTING_MONEY_EXACT)
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
    bytes_free(&list->summary);
    for (size_t i = 0; list->headings && i < list->plan.columns_count; i++)
        free(list->headings[i]);
    free(list->headings);
    free(list->columns);
    free(list->all);
    free(list->from);
    free(list->row);
    free(list->cells);
    free(list);
    errno = why;
    return written;
}

/* ---- parts: every row of one comes after the first ---- */

struct listing *listing_part(const struct listing *list)
{
    struct listing *part = make(&list->asked, NULL);
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
