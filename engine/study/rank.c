#include "study/rank.h"

#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

struct entry {
    struct rank_place told;
    size_t added; /* the how many-th it was, which decides between equals */
};

struct rank {
    const groat_method *method;
    const char *by;
    size_t show; /* of that name; or SIZE_MAX */
    groat_kind kind;
    bool kind_known;
    struct entry *entries;
    size_t count, room;
    struct amounts amounts; /* of the product, as the entries and their notes */
    struct arena arena;     /* of those */
    struct rank_counts counts;
};

static const groat_figure figures[RANK_FIGURES] = {
    [RANK_PRICE] = GROAT_PRICE,   [RANK_KEEP] = GROAT_KEEP,           [RANK_PROFIT] = GROAT_PROFIT,
    [RANK_MARGIN] = GROAT_MARGIN, [RANK_TAKE_HOME] = GROAT_TAKE_HOME,
};

/* ---- opening and closing ---- */

struct rank *rank_open(const groat_method *method, const char *by)
{
    struct rank *rank = calloc(1, sizeof *rank);
    if (!rank)
        return NULL;
    *rank = (struct rank){.method = method, .by = by, .show = SIZE_MAX};
    for (size_t i = 0; i < groat_method_shows(method); i++)
        if (strcmp(groat_method_show(method, i).name, by) == 0)
            rank->show = i;
    amounts_open(&rank->amounts);
    arena_open(&rank->arena, &rank->amounts.memory);
    rank->counts.firsts = calloc(groat_method_channels(method) + 1, sizeof *rank->counts.firsts);
    if (rank->counts.firsts)
        return rank;
    rank_close(rank);
    return NULL;
}

void rank_close(struct rank *rank)
{
    if (!rank)
        return;
    arena_close(&rank->arena);
    amounts_close(&rank->amounts);
    free(rank->counts.firsts);
    free(rank);
}

bool rank_kind(const struct rank *rank, groat_kind *kind)
{
    *kind = rank->kind;
    return rank->kind_known;
}

/* ---- adding ---- */

void rank_begin(struct rank *rank)
{
    rank->entries = NULL;
    rank->count = rank->room = 0;
    arena_empty(&rank->arena);
    amounts_forget(&rank->amounts);
}

/* The next entry; NULL when memory runs out. */
static struct entry *next_entry(struct rank *rank)
{
    struct entry *entries =
        arena_grow(&rank->arena, rank->entries, sizeof *entries, &rank->room, rank->count + 1);
    if (!entries)
        return NULL;
    rank->entries = entries;
    entries[rank->count] = (struct entry){.added = rank->count};
    return &entries[rank->count++];
}

/* The notes of a price, or why there is none. False when memory runs out. */
static bool take_notes(struct arena *arena, struct rank_place *place, const groat_scratch *scratch)
{
    bool priced = place->outcome == GROAT_PRICED;
    size_t count = priced ? groat_result_notes(scratch) : 1;
    const char **notes = arena_take(arena, count * sizeof *notes);
    if (!notes)
        return false;
    for (size_t i = 0; i < count; i++) {
        const char *note = priced ? groat_result_note(scratch, i) : groat_result_reason(scratch);
        notes[i] = arena_text(arena, note, strlen(note));
        if (!notes[i])
            return false;
    }
    place->notes = notes;
    place->notes_count = count;
    return true;
}

/* What the order is ranked by. Channels may each call something else by one name: what is of
 * another kind than the first is nothing to compare. */
static enum rank_status take_value(struct rank *rank, struct entry *entry, groat_scratch *scratch)
{
    groat_value value = rank->show != SIZE_MAX ? groat_result_show(scratch, rank->show)
                                               : groat_result_named(scratch, rank->by);
    groat_kind kind = value.kind;
    if (value.presence == GROAT_UNKNOWN)
        return RANK_NO_MEMORY;
    if (rank->show != SIZE_MAX)
        kind = groat_method_show(rank->method, rank->show).kind;
    if (value.presence == GROAT_MISSING && rank->show == SIZE_MAX && taken_is_amount(kind))
        return RANK_FINE; /* it may not be known on this channel */
    if (!rank->kind_known) {
        rank->kind = kind;
        rank->kind_known = true;
    }
    if (!taken_is_amount(rank->kind))
        return RANK_NO_NUMBER;
    if (kind == rank->kind)
        entry->told.value = taken(&rank->amounts, value);
    return RANK_FINE;
}

enum rank_status rank_add(struct rank *rank, groat_scratch *scratch, const groat_record *record,
                          const groat_order *order)
{
    groat_outcome outcome = groat_price(scratch, rank->method, record, order);
    if (outcome == GROAT_NOT_SOLD)
        return RANK_FINE;
    struct entry *entry = taken_starved(scratch) ? NULL : next_entry(rank);
    if (!entry)
        return RANK_NO_MEMORY;
    struct rank_place *place = &entry->told;
    place->channel = order->channel;
    place->quantity = order->quantity;
    place->outcome = outcome;
    place->held = groat_result_footing(scratch) == GROAT_ON_CEILING;
    if (!take_notes(&rank->arena, place, scratch))
        return RANK_NO_MEMORY;
    if (outcome != GROAT_PRICED)
        return RANK_FINE;
    for (size_t i = 0; i < RANK_FIGURES; i++)
        place->figures[i] = taken_figure(&rank->amounts, scratch, figures[i]);
    enum rank_status status = take_value(rank, entry, scratch);
    return amounts_starved(&rank->amounts) ? RANK_NO_MEMORY : status;
}

/* ---- settling ---- */

/* What comes before what, whatever the values are. */
static int class_of(const struct rank_place *place)
{
    if (place->outcome == GROAT_FAILED)
        return 4;
    if (place->outcome == GROAT_REFUSED)
        return 3;
    if (!place->value.there)
        return 2;
    return place->held ? 1 : 0;
}

static int compare(const void *left, const void *right)
{
    const struct entry *a = left, *b = right;
    const struct rank_place *x = &a->told, *y = &b->told;
    if (x->quantity != y->quantity)
        return x->quantity < y->quantity ? -1 : 1;
    if (class_of(x) != class_of(y))
        return class_of(x) < class_of(y) ? -1 : 1;
    int values = x->value.there && y->value.there ? amount_compare(y->value, x->value) : 0;
    return values != 0 ? values : a->added < b->added ? -1 : 1;
}

static bool shares_place(const struct rank_place *a, const struct rank_place *b)
{
    return class_of(a) == class_of(b) && amount_compare(a->value, b->value) == 0;
}

bool rank_is_ahead(const struct rank_place *place)
{
    return amount_sign(place->gap) < 0;
}

/* Gives the places of one ranking, the entries from `first` on, and counts it. */
static void give_places(struct rank *rank, size_t first, size_t end)
{
    struct rank_place *best = &rank->entries[first].told, *before = NULL;
    size_t given = 0;
    for (size_t i = first; i < end; i++) {
        struct rank_place *place = &rank->entries[i].told;
        if (!place->value.there)
            break;
        given++;
        if (before && shares_place(before, place))
            place->place = before->place;
        else
            place->place = amount_whole((int64_t)given);
        place->gap = amount_subtract(&rank->amounts, best->value, place->value);
        rank->counts.ahead += rank_is_ahead(place);
        if (amount_is_whole_number(place->place, 1))
            rank->counts.firsts[place->channel]++;
        before = place;
    }
    rank->counts.rankings += given > 0;
    rank->counts.alone += given == 1;
}

void rank_settle(struct rank *rank)
{
    if (rank->count > 1)
        qsort(rank->entries, rank->count, sizeof *rank->entries, compare);
    for (size_t first = 0, end; first < rank->count; first = end) {
        end = first + 1;
        while (end < rank->count &&
               rank->entries[end].told.quantity == rank->entries[first].told.quantity)
            end++;
        give_places(rank, first, end);
    }
}

/* ---- reading ---- */

size_t rank_count(const struct rank *rank)
{
    return rank->count;
}

const struct rank_place *rank_at(const struct rank *rank, size_t index)
{
    return &rank->entries[index].told;
}

const struct rank_counts *rank_counts(const struct rank *rank)
{
    return &rank->counts;
}
