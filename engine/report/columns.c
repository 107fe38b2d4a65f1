#include "report/columns.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "report/words.h"
#include "study/taken.h"

struct listing *columns_open(const struct listing_plan *given, const struct listing_column *columns,
                             size_t count, const groat_method *method, FILE *out)
{
    struct listing_plan plan = *given;
    plan.columns = columns;
    plan.columns_count = count;
    plan.currency = groat_method_currency(method);
    return listing_open(&plan, out);
}

void columns_take_place(struct listing_cell *cells, const struct price_place *place)
{
    cells[0].text = place->product;
    cells[1].text = listing_text(place->channel);
    cells[2].amount = amount_whole(place->quantity);
}

bool columns_is_whole(const char *figure)
{
    static const char *const whole[] = {"list", "price", "extras", "tax",
                                        "paid", "net",   "fees",   "keep"};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        if (strcmp(figure, whole[i]) == 0)
            return true;
    return false;
}

const char *columns_outcome(groat_outcome outcome)
{
    static const char *const words[] = {[GROAT_PRICED] = "priced",
                                        [GROAT_NOT_SOLD] = "not sold",
                                        [GROAT_REFUSED] = "refused",
                                        [GROAT_FAILED] = "failed"};
    return words[outcome];
}

void columns_take_outcome(struct listing_cell *cells, groat_outcome outcome,
                          groat_currency currency)
{
    cells[0].text = listing_text(columns_outcome(outcome));
    cells[1].text = listing_text(currency.code);
}

struct amount columns_buyer_adds(struct amounts *room, const groat_scratch *scratch)
{
    return amount_subtract(room, taken_figure(room, scratch, GROAT_PAID),
                           taken_figure(room, scratch, GROAT_PRICE));
}

void columns_take_notes(struct listing *list, const groat_scratch *scratch)
{
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        listing_note(list, groat_result_note(scratch, i));
}

/* ---- shows ---- */

char *columns_words(const char *name)
{
    char *words = malloc(strlen(name) + 1);
    if (!words)
        return NULL;
    strcpy(words, name);
    for (char *at = words; *at; at++)
        if (*at == '_')
            *at = ' ';
    if (words[0] >= 'a' && words[0] <= 'z')
        words[0] = (char)(words[0] - 'a' + 'A');
    return words;
}

bool columns_make_show(struct listing_column *column, const groat_method *method, size_t show)
{
    groat_column shown = groat_method_show(method, show);
    bool number = taken_is_amount(shown.kind);
    enum listing_look look = shown.per ? LISTING_MONEY_PER : number ? LISTING_NUMBER : LISTING_WORD;
    *column = (struct listing_column){shown.name,
                                      columns_words(shown.name),
                                      shown.per ? shown.per : shown.unit,
                                      look,
                                      LISTING_ALWAYS,
                                      true,
                                      NULL};
    if (shown.kind == GROAT_KIND_MONEY && !column->unit)
        column->measure = groat_method_currency(method).code;
    return column->heading != NULL;
}

bool shown_list_open(struct shown_list *list, const groat_method *method, FILE *out,
                     const struct listing_column *fixed, size_t fixed_count,
                     const struct listing_column *last, size_t last_count)
{
    size_t shows = groat_method_shows(method), count = fixed_count + shows + last_count;
    list->fixed = fixed_count;
    list->shows = shows;
    list->columns = calloc(count + 1, sizeof *list->columns);
    if (!list->columns)
        return false;
    memcpy(list->columns, fixed, fixed_count * sizeof *fixed);
    memcpy(list->columns + fixed_count + shows, last, last_count * sizeof *last);
    for (size_t i = 0; i < shows; i++)
        if (!columns_make_show(&list->columns[fixed_count + i], method, i))
            return false;
    list->plan.nothing = NOTHING_PRICED;
    list->plan.currency = groat_method_currency(method); /* for notes */
    list->listing = columns_open(&list->plan, list->columns, count, method, out);
    return list->listing != NULL;
}

bool shown_list_close(struct shown_list *list, bool whole)
{
    bool written = !list->listing || listing_close(list->listing, whole);
    int why = errno;
    for (size_t i = 0; list->columns && i < list->shows; i++)
        free((char *)list->columns[list->fixed + i].heading);
    free(list->columns);
    errno = why;
    return written;
}

struct listing_cell *shown_list_take(struct shown_list *list, const groat_scratch *scratch)
{
    struct listing_cell *cell = listing_cells(list->listing) + list->fixed;
    for (size_t i = 0; i < list->shows; i++)
        (cell++)->value = groat_result_show(scratch, i);
    return cell;
}
