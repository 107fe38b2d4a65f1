#include "study/estimate.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "study/taken.h"

/* Methods with rates at their ends, for one choice of rates; kept from row to row. */
struct turned {
    size_t rates[ESTIMATE_RANGES_MOST];
    size_t count;
    groat_method *methods[ESTIMATE_CORNERS_MOST]; /* by corner; NULL until one is asked for */
    struct turned *next;
};

struct estimate {
    const groat_method *method;
    groat_scratch *scratch;
    size_t fields_count, rates_count;
    bool *reads_fields, *reads_rates;
    struct estimate_range *ranges;
    struct turned *turned;
    size_t made;         /* methods in all of them */
    struct amounts room; /* of the amounts of a row */
    bool starved;        /* memory ran out in this row */
    struct amount likely_cost, least_cost, greatest_cost;
    struct estimate_result result;
    char reason[512];
};

/* ---- opening ---- */

struct estimate *estimate_open(const groat_method *method)
{
    struct estimate *estimate = calloc(1, sizeof *estimate);
    if (!estimate)
        return NULL;
    amounts_open(&estimate->room);
    size_t fields = groat_method_fields(method), rates = groat_method_rates(method);
    estimate->method = method;
    estimate->fields_count = fields;
    estimate->rates_count = rates;
    estimate->scratch = groat_scratch_new(method);
    estimate->reads_fields = calloc(fields + 1, sizeof *estimate->reads_fields);
    estimate->reads_rates = calloc(rates + 1, sizeof *estimate->reads_rates);
    estimate->ranges = calloc(fields + rates + 1, sizeof *estimate->ranges);
    estimate->result.ranges = estimate->ranges;
    estimate->result.reason = estimate->reason;
    if (estimate->scratch && estimate->reads_fields && estimate->reads_rates && estimate->ranges)
        return estimate;
    estimate_close(estimate);
    return NULL;
}

static void drop_turned(struct estimate *estimate)
{
    while (estimate->turned) {
        struct turned *next = estimate->turned->next;
        for (size_t i = 0; i < ESTIMATE_CORNERS_MOST; i++)
            groat_method_free(estimate->turned->methods[i]);
        free(estimate->turned);
        estimate->turned = next;
    }
    estimate->made = 0;
}

void estimate_close(struct estimate *estimate)
{
    if (!estimate)
        return;
    drop_turned(estimate);
    amounts_close(&estimate->room);
    groat_scratch_free(estimate->scratch);
    free(estimate->reads_fields);
    free(estimate->reads_rates);
    free(estimate->ranges);
    free(estimate);
}

/* ---- which ranges ---- */

/* The ranges that bear on the row: fields, then rates. False when memory runs out. */
static bool find_ranges(struct estimate *estimate, const groat_record *record, size_t channel)
{
    struct estimate_result *result = &estimate->result;
    result->ranges_count = 0;
    if (groat_reads(estimate->scratch, estimate->method, record, channel, estimate->reads_fields,
                    estimate->reads_rates) != GROAT_OK)
        return false;
    for (size_t i = 0; i < estimate->fields_count; i++)
        if (estimate->reads_fields[i] && groat_record_range(record, i, NULL))
            estimate->ranges[result->ranges_count++] = (struct estimate_range){false, i};
    for (size_t i = 0; i < estimate->rates_count; i++)
        if (estimate->reads_rates[i] && groat_method_rate_range(estimate->method, i, NULL))
            estimate->ranges[result->ranges_count++] = (struct estimate_range){true, i};
    return true;
}

/* The methods for the rates among the ranges, from `first` on. NULL when memory runs out. */
static struct turned *turned_for(struct estimate *estimate, size_t first)
{
    size_t count = estimate->result.ranges_count - first;
    size_t rates[ESTIMATE_RANGES_MOST];
    for (size_t i = 0; i < count; i++)
        rates[i] = estimate->ranges[first + i].index;
    for (struct turned *each = estimate->turned; each; each = each->next)
        if (each->count == count && memcmp(each->rates, rates, count * sizeof *rates) == 0)
            return each;
    if (estimate->made + ((size_t)1 << count) > ESTIMATE_CORNERS_MOST)
        drop_turned(estimate);
    struct turned *turned = calloc(1, sizeof *turned);
    if (!turned)
        return NULL;
    memcpy(turned->rates, rates, count * sizeof *rates);
    turned->count = count;
    turned->next = estimate->turned;
    estimate->turned = turned;
    estimate->made += (size_t)1 << count;
    return turned;
}

/* ---- corners ---- */

static groat_end end_of(size_t corner, size_t range)
{
    return corner >> range & 1 ? GROAT_HIGH : GROAT_LOW;
}

/* The method with its rates at the ends of a corner; NULL with a trouble that says why. */
static const groat_method *method_at(struct estimate *estimate, struct turned *turned,
                                     size_t corner, groat_trouble *trouble)
{
    groat_lean leans[ESTIMATE_RANGES_MOST];
    if (turned->count == 0)
        return estimate->method;
    if (turned->methods[corner])
        return turned->methods[corner];
    for (size_t i = 0; i < turned->count; i++)
        leans[i] = (groat_lean){turned->rates[i], end_of(corner, i)};
    turned->methods[corner] = groat_method_leaned(estimate->method, leans, turned->count, trouble);
    return turned->methods[corner];
}

static void widen(struct amount *least, struct amount *greatest, struct amount with)
{
    if (!least->there || amount_compare(with, *least) < 0)
        *least = with;
    if (!greatest->there || amount_compare(with, *greatest) > 0)
        *greatest = with;
}

static void count_unpriced(struct estimate *estimate, const char *reason)
{
    if (estimate->result.unpriced++ == 0)
        snprintf(estimate->reason, sizeof estimate->reason, "%s", reason);
}

/* Prices the record as it is leaned; returns whether it has a cost. */
static bool take_corner(struct estimate *estimate, const groat_method *method,
                        const groat_record *record, const groat_order *order)
{
    struct estimate_result *result = &estimate->result;
    groat_outcome outcome = groat_price(estimate->scratch, method, record, order);
    estimate->starved = estimate->starved || taken_starved(estimate->scratch);
    if (outcome == GROAT_PRICED) {
        widen(&result->lowest, &result->highest,
              taken_figure(&estimate->room, estimate->scratch, GROAT_PRICE));
    } else {
        count_unpriced(estimate, outcome == GROAT_NOT_SOLD
                                     ? "the product is not sold there"
                                     : groat_result_reason(estimate->scratch));
    }
    struct amount cost = taken_figure(&estimate->room, estimate->scratch, GROAT_COST);
    if (cost.there)
        widen(&estimate->least_cost, &estimate->greatest_cost, cost);
    return cost.there;
}

static void lean_fields(const struct estimate *estimate, groat_record *record, size_t fields,
                        size_t corner)
{
    for (size_t i = 0; i < fields; i++)
        groat_record_lean(record, estimate->ranges[i].index, end_of(corner, i));
}

/* Every corner. Rates are the outer ones, so that each method is put in place once a row. */
static bool take_corners(struct estimate *estimate, struct turned *turned, groat_record *record,
                         const groat_order *order)
{
    size_t fields = estimate->result.ranges_count - turned->count;
    bool costed = true;
    for (size_t outer = 0; outer < (size_t)1 << turned->count && !estimate->starved; outer++) {
        groat_trouble trouble;
        const groat_method *method = method_at(estimate, turned, outer, &trouble);
        estimate->starved =
            estimate->starved || (!method && trouble.kind == GROAT_TROUBLE_NO_MEMORY);
        for (size_t inner = 0; inner < (size_t)1 << fields && !estimate->starved; inner++) {
            lean_fields(estimate, record, fields, inner);
            if (method)
                costed = take_corner(estimate, method, record, order) && costed;
            else
                count_unpriced(estimate, trouble.message);
        }
        costed = costed && method;
    }
    for (size_t i = 0; i < fields; i++)
        groat_record_lean(record, estimate->ranges[i].index, GROAT_LIKELY);
    return costed;
}

/* (a + 4m + b) / 6 */
static void take_mean(struct estimate *estimate)
{
    struct amounts *room = &estimate->room;
    struct amount sum = amount_add(room, estimate->least_cost, estimate->greatest_cost);
    sum = amount_add(room, sum, amount_times(room, estimate->likely_cost, 4));
    estimate->result.mean = amount_divide(room, sum, amount_whole(6));
}

/* ---- a row ---- */

static void begin(struct estimate *estimate)
{
    struct estimate_result *result = &estimate->result;
    amounts_forget(&estimate->room);
    estimate->likely_cost = estimate->least_cost = estimate->greatest_cost = (struct amount){0};
    result->lowest = result->highest = result->mean = (struct amount){0};
    result->outcome = ESTIMATE_DONE;
    result->corners = result->unpriced = result->ranges_count = 0;
    estimate->reason[0] = '\0';
    estimate->starved = false;
}

static const struct estimate_result *ended(struct estimate *estimate, enum estimate_outcome outcome)
{
    estimate->result.outcome = outcome;
    return &estimate->result;
}

const struct estimate_result *estimate_row(struct estimate *estimate, groat_record *record,
                                           const groat_order *order)
{
    struct estimate_result *result = &estimate->result;
    size_t fields = 0;
    begin(estimate);
    if (!find_ranges(estimate, record, order->channel))
        return ended(estimate, ESTIMATE_NO_MEMORY);
    if (result->ranges_count > ESTIMATE_RANGES_MOST)
        return ended(estimate, ESTIMATE_TOO_MANY);
    while (fields < result->ranges_count && !estimate->ranges[fields].is_rate)
        fields++;
    struct turned *turned = turned_for(estimate, fields);
    if (!turned)
        return ended(estimate, ESTIMATE_NO_MEMORY);
    result->corners = (size_t)1 << result->ranges_count;
    groat_price(estimate->scratch, estimate->method, record, order);
    estimate->starved = taken_starved(estimate->scratch);
    estimate->likely_cost = taken_figure(&estimate->room, estimate->scratch, GROAT_COST);
    if (take_corners(estimate, turned, record, order) && estimate->likely_cost.there)
        take_mean(estimate);
    estimate->starved = estimate->starved || amounts_starved(&estimate->room);
    return ended(estimate, estimate->starved ? ESTIMATE_NO_MEMORY : ESTIMATE_DONE);
}
