/* Ranges: cells, defaults and rates that may be anything between two ends. Expected fractions are by
 * hand, in base units: seconds, grams and the currency. */
#include "language/bench.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const char rules[] = "currency USD $\n"
                            "unit sheet\n"
                            "materials {\n"
                            "    screws $8 to $9 per 200\n"
                            "    oil    $20 to $24 per 1 l likely $21\n"
                            "    wax    $5 per kg\n"
                            "}\n"
                            "product {\n"
                            "    number_  number           optional\n"
                            "    count_   count            optional\n"
                            "    percent_ percent          optional\n"
                            "    money_   money            optional\n"
                            "    minutes  time as min      optional\n"
                            "    hours    time as h        optional\n"
                            "    length_  length           optional\n"
                            "    grams    mass as g        optional\n"
                            "    ply      sheet            optional\n"
                            "    wage     money per time   optional\n"
                            "    uses     parts            optional\n"
                            "    note     text             optional\n"
                            "    made_on  date             optional\n"
                            "    bench    time = 20 min to 30 min likely 22 min\n"
                            "    shown    number           optional\n"
                            "}\n"
                            "rate hourly = $20 to $30 per h\n"
                            "rate twice  = hourly * 2\n"
                            "rate fixed  = $3\n"
                            "rate unused = 1 to 2\n"
                            "cost parts_ = worth of uses otherwise $0\n"
                            "pay  hands  = bench * hourly\n"
                            "channel stall { fee pitch = fixed }\n"
                            "channel other { cost extra_ = 1 h * twice }\n"
                            "price { set cost + $1 }\n"
                            "show shown\n"
                            "show unused\n";

static int open_bench(void **state)
{
    return bench_open(state, rules);
}

static int clear_record(void **state)
{
    struct bench *bench = *state;
    groat_record_clear(bench->record);
    return 0;
}

static size_t field_of(const struct bench *bench, const char *name)
{
    size_t field = groat_method_find_field(bench->method, name);
    assert_true(field != SIZE_MAX);
    return field;
}

static groat_status set(struct bench *bench, const char *field, const char *cell, bool comma,
                        groat_trouble *trouble)
{
    const groat_cells cells = {.decimal_comma = comma};
    memset(trouble, 0, sizeof *trouble);
    return groat_record_set(bench->record, field_of(bench, field), (groat_text){cell, strlen(cell)},
                            &cells, trouble);
}

static void set_well(struct bench *bench, const char *field, const char *cell)
{
    groat_trouble trouble;
    if (set(bench, field, cell, false, &trouble) != GROAT_OK)
        fail_msg("%s: %s", cell, trouble.message);
}

/* A fraction as `top/bottom`. */
static void assert_is(groat_value value, const char *expected)
{
    char top[64], bottom[64], text[140];
    groat_value_top(value, top, sizeof top);
    groat_value_bottom(value, bottom, sizeof bottom);
    snprintf(text, sizeof text, "%s/%s", top, bottom);
    assert_string_equal(text, expected);
}

static groat_value figure_at(struct bench *bench, const groat_method *method, size_t channel,
                             groat_figure figure)
{
    const groat_order order = {.channel = channel, .quantity = 1};
    assert_int_equal(groat_price(bench->scratch, method, bench->record, &order), GROAT_PRICED);
    return groat_result_figure(bench->scratch, figure);
}

/* ---- cells ---- */

struct range_case {
    const char *field, *cell, *low, *likely, *high;
};

static void assert_ranges(struct bench *bench, bool comma, const struct range_case *cases,
                          size_t count)
{
    for (size_t i = 0; i < count; i++) {
        groat_trouble trouble;
        groat_range range;
        groat_record_clear(bench->record);
        if (set(bench, cases[i].field, cases[i].cell, comma, &trouble) != GROAT_OK)
            fail_msg("%s: %s", cases[i].cell, trouble.message);
        assert_true(groat_record_range(bench->record, field_of(bench, cases[i].field), &range));
        assert_is(range.low, cases[i].low);
        assert_is(range.likely, cases[i].likely);
        assert_is(range.high, cases[i].high);
    }
}

static void a_cell_may_be_a_range(void **state)
{
    static const struct range_case cases[] = {
        {"money_", "$2 to $3", "2/1", "5/2", "3/1"},
        {"money_", "$4 to $6 likely $4.50", "4/1", "9/2", "6/1"},
        {"money_", "2 to 3", "2/1", "5/2", "3/1"},
        {"money_", "-$2 to $3", "-2/1", "1/2", "3/1"},
        {"money_", "$1,200 to $1,300", "1200/1", "1250/1", "1300/1"},
        {"money_", "2 USD to 3 USD", "2/1", "5/2", "3/1"},
        {"money_", "$2 to $3 likely $2", "2/1", "2/1", "3/1"},
        {"money_", "$2 to $3 likely $3", "2/1", "3/1", "3/1"},
        {"minutes", "20 to 30", "1200/1", "1500/1", "1800/1"},
        {"minutes", "20 min to 30 min likely 22 min", "1200/1", "1320/1", "1800/1"},
        {"minutes", "20 min to 1 h", "1200/1", "2400/1", "3600/1"},
        {"minutes", "20 min to 1 h 30 min likely 1 h", "1200/1", "3600/1", "5400/1"},
        {"number_", "1 to 2 likely 1.5", "1/1", "3/2", "2/1"},
        {"number_", "-3 to -2", "-3/1", "-5/2", "-2/1"},
        {"count_", "2 to 4", "2/1", "3/1", "4/1"},
        {"count_", "2 to 5 likely 3", "2/1", "3/1", "5/1"},
        {"percent_", "5% to 8%", "1/20", "13/200", "2/25"},
        {"length_", "1/2 in to 3/4 in", "127/10", "127/8", "381/20"},
        {"ply", "1 to 2", "1/1", "3/2", "2/1"},
        {"ply", "1 sheet to 2 sheet", "1/1", "3/2", "2/1"},
        {"wage", "$20 per h to $30 per h", "1/180", "1/144", "1/120"},
    };
    assert_ranges(*state, false, cases, COUNT(cases));
}

/* What one of the parts says holds for those that do not say it, in the field's own unit or not. */
static void a_unit_beside_one_part_holds_for_the_others(void **state)
{
    static const struct range_case cases[] = {
        {"minutes", "20 to 30 min", "1200/1", "1500/1", "1800/1"},
        {"minutes", "1 to 2 h", "3600/1", "5400/1", "7200/1"},
        {"hours", "20 to 30 min", "1200/1", "1500/1", "1800/1"},
        {"hours", "20 min to 30", "1200/1", "1500/1", "1800/1"},
        {"hours", "20 to 30 likely 22 min", "1200/1", "1320/1", "1800/1"},
        {"hours", "20 to 30 min likely 22", "1200/1", "1320/1", "1800/1"},
        {"money_", "$2 to 3", "2/1", "5/2", "3/1"},
        {"money_", "2 to 3 USD", "2/1", "5/2", "3/1"},
        {"money_", "$8 to $9 per 200", "1/25", "17/400", "9/200"},
        {"percent_", "5 to 8%", "1/20", "13/200", "2/25"},
        {"number_", "5 to 8%", "1/20", "13/200", "2/25"},
        {"wage", "$20 to $30 per h", "1/180", "1/144", "1/120"},
        {"wage", "$20 to 30 per h likely 24", "1/180", "1/150", "1/120"},
    };
    assert_ranges(*state, false, cases, COUNT(cases));
}

static void a_sheet_with_decimal_commas_has_ranges_too(void **state)
{
    static const struct range_case cases[] = {
        {"money_", "2,50 to 3,50 likely 2,80", "5/2", "14/5", "7/2"},
        {"money_", "$1.200 to $1.300,50", "1200/1", "5001/4", "2601/2"},
        {"minutes", "0,5 to 1,5", "30/1", "60/1", "90/1"},
    };
    assert_ranges(*state, true, cases, COUNT(cases));
}

static void a_range_whose_ends_are_equal_is_a_value_like_any_other(void **state)
{
    static const char *const cells[] = {"$2 to $2", "$2 to $2 likely $2", "2 to $2.00"};
    struct bench *bench = *state;
    size_t field = field_of(bench, "shown");
    for (size_t i = 0; i < COUNT(cells); i++) {
        set_well(bench, "money_", cells[i]);
        assert_false(groat_record_range(bench->record, field_of(bench, "money_"), NULL));
    }
    set_well(bench, "shown", "4 to 4");
    assert_false(groat_record_range(bench->record, field, NULL));
    figure_at(bench, bench->method, 0, GROAT_PRICE);
    assert_is(groat_result_show(bench->scratch, 0), "4/1");
}

static void a_text_that_says_to_is_a_text(void **state)
{
    struct bench *bench = *state;
    set_well(bench, "note", "4 to 6 likely 5");
    assert_false(groat_record_range(bench->record, field_of(bench, "note"), NULL));
}

static void a_range_that_cannot_be_read_leaves_the_record_as_it_was(void **state)
{
    static const struct {
        const char *field, *cell, *message;
    } cases[] = {
        {"money_", "$3 to $2", "this range starts above its end"},
        {"money_", "$2 to $3 likely $4", "the likely value lies outside the range"},
        {"money_", "$2 to $3 likely $1", "the likely value lies outside the range"},
        {"money_", "1 to 2 to 3", "this is not a range; money_ is money"},
        {"money_", "$2 to", "this is not a range; money_ is money"},
        {"money_", "to $2", "this is not a range; money_ is money"},
        {"money_", "$2 likely $3", "this is not a range; money_ is money"},
        {"money_", "$2 to $3 likely", "this is not a range; money_ is money"},
        {"money_", "$2 to $3 likely $2 likely $2", "this is not a range; money_ is money"},
        {"money_", "to", "this is not a value; money_ is money"},
        {"money_", "$2 to $3 + $1", "each part of a range must be a single amount"},
        {"money_", "20 min to 30 min", "this is time; money_ is money"},
        {"minutes", "20 min to 3 ft", "the parts of a range must all have the same dimension"},
        {"minutes", "1 to 1 h 30 min", "each part of this range needs a unit"},
        {"minutes", "-5 to 5 min", "minutes is time, which cannot be below zero"},
        {"minutes", "20 min to 1 h likely 30", "the likely value lies outside the range"},
        {"wage", "20 to 30", "this number needs a unit; wage is money per time"},
        {"percent_", "5 to 8", "a percentage needs a % sign"},
        {"count_", "2 to 5", "the midpoint of this range is not a whole number"},
        {"count_", "1.5 to 2.5", "a count must be a whole number, not below zero"},
        {"count_", "-2 to 2", "a count must be a whole number, not below zero"},
        {"made_on", "2027-01-01 to 2027-02-01", "made_on is a date, which cannot be a range"},
        {"uses", "screws 8 to 10", "the amount of a part cannot be a range"},
        {"number_", "2027-01-01 to 2027-02-01", "only numbers and amounts can be a range"},
    };
    struct bench *bench = *state;
    set_well(bench, "money_", "$7 to $9");
    for (size_t i = 0; i < COUNT(cases); i++) {
        groat_trouble trouble;
        groat_range range;
        if (set(bench, cases[i].field, cases[i].cell, false, &trouble) != GROAT_BAD_VALUE)
            fail_msg("%s is accepted", cases[i].cell);
        if (strcmp(trouble.message, cases[i].message) != 0)
            fail_msg("%s: %s", cases[i].cell, trouble.message);
        assert_true(groat_record_range(bench->record, field_of(bench, "money_"), &range));
        assert_is(range.likely, "8/1");
    }
}

/* Two ends of 2000 digits each, or a difference that has more than the engine works with. */
static void a_range_of_huge_numbers_is_refused(void **state)
{
    struct bench *bench = *state;
    char cell[8100];
    groat_trouble trouble;
    size_t length = 0;
    cell[length++] = '1';
    memcpy(cell + length, " to ", 4);
    length += 4;
    memset(cell + length, '9', 8000);
    cell[length + 8000] = '\0';
    assert_int_equal(set(bench, "money_", cell, false, &trouble), GROAT_BAD_VALUE);
    assert_string_equal(trouble.message, "this number has more digits than the engine can handle");
}

static void setting_a_field_anew_forgets_its_range(void **state)
{
    struct bench *bench = *state;
    size_t field = field_of(bench, "money_"), number = field_of(bench, "number_");
    set_well(bench, "money_", "$2 to $3");
    set_well(bench, "money_", "$2");
    assert_false(groat_record_range(bench->record, field, NULL));
    set_well(bench, "money_", "$2 to $3");
    set_well(bench, "money_", "");
    assert_false(groat_record_range(bench->record, field, NULL));
    set_well(bench, "number_", "2 to 3");
    groat_trouble trouble;
    assert_int_equal(groat_record_set_fraction(bench->record, number, 5, 2, &trouble), GROAT_OK);
    assert_false(groat_record_range(bench->record, number, NULL));
    set_well(bench, "number_", "2 to 3");
    groat_record_clear(bench->record);
    assert_false(groat_record_range(bench->record, number, NULL));
}

/* ---- leaning ---- */

static void a_range_is_priced_as_the_value_it_is_leaned_to(void **state)
{
    struct bench *bench = *state;
    size_t field = field_of(bench, "shown");
    set_well(bench, "shown", "4 to 10 likely 5");
    static const struct {
        groat_end end;
        const char *expected;
    } cases[] = {{GROAT_LOW, "4/1"}, {GROAT_HIGH, "10/1"}, {GROAT_LIKELY, "5/1"}};
    figure_at(bench, bench->method, 0, GROAT_PRICE);
    assert_is(groat_result_show(bench->scratch, 0), "5/1");
    for (size_t i = 0; i < COUNT(cases); i++) {
        groat_record_lean(bench->record, field, cases[i].end);
        figure_at(bench, bench->method, 0, GROAT_PRICE);
        assert_is(groat_result_show(bench->scratch, 0), cases[i].expected);
        assert_true(groat_record_range(bench->record, field, NULL));
    }
    groat_record_lean(bench->record, field_of(bench, "money_"), GROAT_LOW); /* it is no range */
}

/* hourly is $25 at its middle: 22 minutes of it are $9 1/6, 20 are $8 1/3, 30 are $12.50. */
static void a_default_that_is_a_range_counts_where_the_cell_is_empty(void **state)
{
    struct bench *bench = *state;
    size_t field = field_of(bench, "bench");
    groat_range range;
    assert_true(groat_record_range(bench->record, field, &range));
    assert_is(range.low, "1200/1");
    assert_is(range.likely, "1320/1");
    assert_is(range.high, "1800/1");
    assert_is(figure_at(bench, bench->method, 0, GROAT_COST), "55/6");
    groat_record_lean(bench->record, field, GROAT_LOW);
    assert_is(figure_at(bench, bench->method, 0, GROAT_COST), "25/3");
    groat_record_lean(bench->record, field, GROAT_HIGH);
    assert_is(figure_at(bench, bench->method, 0, GROAT_COST), "25/2");
    groat_record_lean(bench->record, field, GROAT_LIKELY);
    assert_is(figure_at(bench, bench->method, 0, GROAT_COST), "55/6");
    set_well(bench, "bench", "12 min");
    assert_false(groat_record_range(bench->record, field, NULL));
    assert_is(figure_at(bench, bench->method, 0, GROAT_COST), "5/1");
}

/* ---- rates ---- */

static void assert_rate_range(const groat_method *method, const char *rate, const char *low,
                              const char *likely, const char *high)
{
    groat_range range;
    assert_true(groat_method_rate_range(method, rate_of(method, rate), &range));
    assert_is(range.low, low);
    assert_is(range.likely, likely);
    assert_is(range.high, high);
}

static groat_method *with(const groat_method *method, groat_rate_value given)
{
    groat_trouble trouble;
    groat_method *made = groat_method_with_rates(method, &given, 1, &trouble);
    if (!made)
        fail_msg("%s", trouble.message);
    return made;
}

static void a_rate_or_a_material_may_be_a_range(void **state)
{
    struct bench *bench = *state;
    assert_rate_range(bench->method, "hourly", "1/180", "1/144", "1/120");
    assert_rate_range(bench->method, "screws", "1/25", "17/400", "9/200");
    assert_rate_range(bench->method, "oil", "1/50000", "21/1000000", "3/125000");
    assert_false(groat_method_rate_range(bench->method, rate_of(bench->method, "twice"), NULL));
    assert_false(groat_method_rate_range(bench->method, rate_of(bench->method, "fixed"), NULL));
    assert_is(groat_method_rate_value(bench->method, rate_of(bench->method, "twice")), "1/72");
}

static void a_rate_may_be_given_as_a_range_from_outside(void **state)
{
    struct bench *bench = *state;
    groat_method *other =
        with(bench->method, (groat_rate_value){.rate = "fixed", .value = "$2 to $4 likely $2.50"});
    assert_rate_range(other, "fixed", "2/1", "5/2", "4/1");
    assert_rate_range(other, "hourly", "1/180", "1/144", "1/120");
    groat_method *third = with(other, (groat_rate_value){.rate = "hourly", .value = "$27 per h"});
    assert_rate_range(third, "fixed", "2/1", "5/2", "4/1");
    assert_false(groat_method_rate_range(third, rate_of(third, "hourly"), NULL));
    groat_method_free(other); /* the third has all of its own */
    assert_rate_range(third, "fixed", "2/1", "5/2", "4/1");
    groat_method_free(third);
    groat_trouble trouble;
    groat_rate_value wrong = {.rate = "fixed", .value = "$4 to $2"};
    assert_null(groat_method_with_rates(bench->method, &wrong, 1, &trouble));
    assert_string_equal(trouble.message, "fixed: this range starts above its end");
    assert_string_equal(trouble.help, "$2 to $4");
}

static void a_change_moves_a_range_as_a_whole_and_a_way_leads_between_likely_values(void **state)
{
    struct bench *bench = *state;
    groat_method *dearer =
        with(bench->method, (groat_rate_value){.rate = "hourly", .value = "+20%"});
    assert_rate_range(dearer, "hourly", "1/150", "1/120", "1/100"); /* $24 to $36, likely $30 */
    groat_method *on_the_way =
        with(bench->method,
             (groat_rate_value){
                 .rate = "hourly", .value = "+0%", .toward = "+20%", .top = 1, .bottom = 2});
    size_t hourly = rate_of(on_the_way, "hourly");
    assert_false(groat_method_rate_range(on_the_way, hourly, NULL));
    assert_is(groat_method_rate_value(on_the_way, hourly), "11/1440"); /* $27.50 in 3600 seconds */
    groat_method_free(dearer);
    groat_method_free(on_the_way);
    groat_trouble trouble;
    groat_rate_value wrong = {.rate = "hourly",
                              .value = "$20 per h",
                              .toward = "$25 to $30 per h",
                              .top = 1,
                              .bottom = 2};
    assert_null(groat_method_with_rates(bench->method, &wrong, 1, &trouble));
    assert_string_equal(trouble.message, "hourly: this must be a single amount, not a range");
}

static void what_rests_on_a_leaned_rate_follows_it(void **state)
{
    struct bench *bench = *state;
    groat_trouble trouble;
    size_t hourly = rate_of(bench->method, "hourly"), fixed = rate_of(bench->method, "fixed");
    groat_lean low = {hourly, GROAT_LOW};
    groat_lean high[] = {{hourly, GROAT_HIGH}, {fixed, GROAT_HIGH}}; /* fixed is no range */
    groat_method *least = groat_method_leaned(bench->method, &low, 1, &trouble);
    groat_method *most = groat_method_leaned(bench->method, high, 2, &trouble);
    assert_non_null(least);
    assert_non_null(most);
    assert_is(groat_method_rate_value(least, rate_of(least, "twice")), "1/90");
    assert_is(groat_method_rate_value(most, rate_of(most, "twice")), "1/60");
    assert_is(groat_method_rate_value(most, fixed), "3/1");
    assert_false(groat_method_rate_range(least, hourly, NULL));
    /* 22 minutes at $20 and at $30, and an hour of twice that. */
    assert_is(figure_at(bench, least, 1, GROAT_COST), "142/3");
    assert_is(figure_at(bench, most, 1, GROAT_COST), "71/1");
    groat_method_free(least);
    groat_method_free(most);
}

/* ---- what bears on a result ---- */

static bool reads_rate(struct bench *bench, const groat_method *method, size_t channel,
                       const char *rate)
{
    bool rates[16];
    assert_true(groat_method_rates(method) <= COUNT(rates));
    assert_int_equal(groat_reads(bench->scratch, method, bench->record, channel, NULL, rates),
                     GROAT_OK);
    return rates[rate_of(method, rate)];
}

static bool reads_field(struct bench *bench, size_t channel, const char *field)
{
    bool fields[32];
    assert_true(groat_method_fields(bench->method) <= COUNT(fields));
    assert_int_equal(
        groat_reads(bench->scratch, bench->method, bench->record, channel, fields, NULL), GROAT_OK);
    return fields[field_of(bench, field)];
}

static void a_channel_reads_what_its_figures_shows_and_parts_need(void **state)
{
    struct bench *bench = *state;
    assert_true(reads_rate(bench, bench->method, 0, "hourly"));
    assert_false(reads_rate(bench, bench->method, 0, "twice"));
    assert_true(reads_rate(bench, bench->method, 1, "twice"));
    assert_true(reads_rate(bench, bench->method, 0, "fixed"));
    assert_false(reads_rate(bench, bench->method, 1, "fixed"));
    assert_true(reads_rate(bench, bench->method, 0, "unused")); /* a show */
    assert_true(reads_field(bench, 0, "bench"));
    assert_true(reads_field(bench, 0, "uses"));
    assert_true(reads_field(bench, 0, "shown"));
    assert_false(reads_field(bench, 0, "money_"));
    assert_false(reads_rate(bench, bench->method, 0, "screws")); /* no parts */
    set_well(bench, "uses", "screws 8 + wax 20 g");
    assert_true(reads_rate(bench, bench->method, 0, "screws"));
    assert_true(reads_rate(bench, bench->method, 0, "wax"));
    assert_false(reads_rate(bench, bench->method, 0, "oil"));
}

static void a_rate_that_is_replaced_does_not_read_what_it_rested_on(void **state)
{
    struct bench *bench = *state;
    groat_method *other =
        with(bench->method, (groat_rate_value){.rate = "twice", .value = "$50 per h"});
    set_well(bench, "bench", "0 min");
    assert_true(reads_rate(bench, other, 1, "twice"));
    assert_true(reads_rate(bench, other, 1, "hourly")); /* for the hands */
    groat_method_free(other);
    groat_method *lone = read_rules("currency USD $\n"
                                    "rate a = $1 to $2\n"
                                    "rate b = a * 2\n"
                                    "price { set b }\n");
    groat_record *record = groat_record_new(lone);
    groat_scratch *scratch = groat_scratch_new(lone);
    bool rates[2];
    groat_reads(scratch, lone, record, 0, NULL, rates);
    assert_true(rates[0] && rates[1]);
    groat_method *set_b = with(lone, (groat_rate_value){.rate = "b", .value = "$3"});
    groat_reads(scratch, set_b, record, 0, NULL, rates);
    assert_true(rates[1] && !rates[0]);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(set_b);
    groat_method_free(lone);
}

/* Bounds of a ladder and of a table, and amounts inside an aim. */
static void a_ladder_and_a_table_read_the_rates_in_their_bounds(void **state)
{
    (void)state;
    groat_method *method = read_rules("currency USD $\n"
                                      "product { weight number = 2 }\n"
                                      "rate bound = $10 to $20\n"
                                      "rate coin  = $1 to $2\n"
                                      "rate heavy = 3 to 4\n"
                                      "rate share = 30% to 40%\n"
                                      "rate other = 3 to 4\n"
                                      "table post by weight {\n"
                                      "    up to heavy : $4\n"
                                      "    otherwise   : $9\n"
                                      "}\n"
                                      "rounding steps {\n"
                                      "    below bound : every $0.50\n"
                                      "    otherwise   : every coin\n"
                                      "}\n"
                                      "cost posting = post\n"
                                      "price { aim margin >= share; round up to steps }\n"
                                      "let none_ = other\n");
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    bool rates[5];
    assert_int_equal(groat_reads(scratch, method, record, 0, NULL, rates), GROAT_OK);
    assert_true(rates[rate_of(method, "bound")] && rates[rate_of(method, "coin")]);
    assert_true(rates[rate_of(method, "heavy")] && rates[rate_of(method, "share")]);
    assert_false(rates[rate_of(method, "other")]);
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(a_cell_may_be_a_range, clear_record),
        cmocka_unit_test_setup(a_unit_beside_one_part_holds_for_the_others, clear_record),
        cmocka_unit_test_setup(a_sheet_with_decimal_commas_has_ranges_too, clear_record),
        cmocka_unit_test_setup(a_range_whose_ends_are_equal_is_a_value_like_any_other,
                               clear_record),
        cmocka_unit_test_setup(a_text_that_says_to_is_a_text, clear_record),
        cmocka_unit_test_setup(a_range_that_cannot_be_read_leaves_the_record_as_it_was,
                               clear_record),
        cmocka_unit_test_setup(a_range_of_huge_numbers_is_refused, clear_record),
        cmocka_unit_test_setup(setting_a_field_anew_forgets_its_range, clear_record),
        cmocka_unit_test_setup(a_range_is_priced_as_the_value_it_is_leaned_to, clear_record),
        cmocka_unit_test_setup(a_default_that_is_a_range_counts_where_the_cell_is_empty,
                               clear_record),
        cmocka_unit_test_setup(a_rate_or_a_material_may_be_a_range, clear_record),
        cmocka_unit_test_setup(a_rate_may_be_given_as_a_range_from_outside, clear_record),
        cmocka_unit_test_setup(
            a_change_moves_a_range_as_a_whole_and_a_way_leads_between_likely_values, clear_record),
        cmocka_unit_test_setup(what_rests_on_a_leaned_rate_follows_it, clear_record),
        cmocka_unit_test_setup(a_channel_reads_what_its_figures_shows_and_parts_need, clear_record),
        cmocka_unit_test_setup(a_rate_that_is_replaced_does_not_read_what_it_rested_on,
                               clear_record),
        cmocka_unit_test(a_ladder_and_a_table_read_the_rates_in_their_bounds),
    };
    return cmocka_run_group_tests_name("ranges", tests, open_bench, bench_close);
}
