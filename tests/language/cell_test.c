/* A sheet's cells: the exact value of every form, and what is refused.
 *
 * The expected fractions are worked out by hand, in base units: seconds, millimetres, grams,
 * watt-hours and the currency. An inch is 25.4 mm, a pound 453.59237 g, a board foot 144 cubic
 * inches, a US gallon 231 of them. */
#include "language/bench.h"

#define COUNT(array) (sizeof(array) / sizeof *(array))

static const char cell_rules[] = "currency USD $\n"
                                 "unit sheet\n"
                                 "materials {\n"
                                 "    linseed_oil $18 per 5 l\n"
                                 "    screws      $9.60 per 200\n"
                                 "    olive       $36 per 5 l weighs 0.915 kg per l\n"
                                 "    flour       $2 per kg weighs 0.5 kg per l\n"
                                 "    twine       $7.50 per 250 m\n"
                                 "}\n"
                                 "product {\n"
                                 "    name     text             optional\n"
                                 "    number_  number           optional\n"
                                 "    count_   count            optional\n"
                                 "    percent_ percent          optional\n"
                                 "    money_   money            optional\n"
                                 "    minutes  time as min      optional\n"
                                 "    length_  length           optional\n"
                                 "    boards   volume as bf     optional\n"
                                 "    area_    area             optional\n"
                                 "    grams    mass as g        optional\n"
                                 "    energy_  energy           optional\n"
                                 "    ply      sheet            optional\n"
                                 "    wage     money per time   optional\n"
                                 "    fuel     money per volume optional\n"
                                 "    flag_    flag             optional\n"
                                 "    made_on  date             optional\n"
                                 "    uses     parts            optional\n"
                                 "}\n"
                                 "price { set $1 }\n"
                                 "let used = worth of uses otherwise $0\n";

static int open_bench(void **state)
{
    return bench_open(state, cell_rules);
}

static groat_status set_cell(struct bench *bench, const char *field, groat_text cell, bool comma,
                             groat_trouble *trouble)
{
    const groat_cells cells = {.decimal_comma = comma};
    size_t index = groat_method_find_field(bench->method, field);
    assert_true(index != SIZE_MAX);
    memset(trouble, 0, sizeof *trouble);
    return groat_record_set(bench->record, index, cell, &cells, trouble);
}

static groat_value value_of(struct bench *bench, const char *name)
{
    const groat_order order = {.channel = 0, .quantity = 1};
    assert_int_equal(groat_price(bench->scratch, bench->method, bench->record, &order),
                     GROAT_PRICED);
    return groat_result_named(bench->scratch, name);
}

struct cell_case {
    const char *field, *cell, *top, *bottom;
};

static void assert_cells(struct bench *bench, bool comma, const struct cell_case *cases,
                         size_t count)
{
    for (size_t i = 0; i < count; i++) {
        groat_trouble trouble;
        char top[64], bottom[64];
        groat_record_clear(bench->record);
        const char *cell = cases[i].cell;
        if (set_cell(bench, cases[i].field, (groat_text){cell, strlen(cell)}, comma, &trouble) !=
            GROAT_OK)
            fail_msg("%s of %s: %s", cell, cases[i].field, trouble.message);
        bool parts = strcmp(cases[i].field, "uses") == 0;
        groat_value value = value_of(bench, parts ? "used" : cases[i].field);
        groat_value_top(value, top, sizeof top);
        groat_value_bottom(value, bottom, sizeof bottom);
        if (strcmp(top, cases[i].top) != 0 || strcmp(bottom, cases[i].bottom) != 0)
            fail_msg("%s of %s is %s/%s, not %s/%s", cell, cases[i].field, top, bottom,
                     cases[i].top, cases[i].bottom);
    }
}

static void a_bare_number_is_read_in_the_fields_unit(void **state)
{
    static const struct cell_case cases[] = {
        {"number_", "12.50", "25", "2"},
        {"number_", ".99", "99", "100"},
        {"number_", "-3", "-3", "1"},
        {"number_", "1_850", "1850", "1"},
        {"count_", "12", "12", "1"},
        {"count_", "0", "0", "1"},
        {"count_", "12.0", "12", "1"},
        {"money_", "7.80", "39", "5"},
        {"minutes", "40", "2400", "1"},
        {"minutes", "0.5", "30", "1"},
        {"boards", "2", "589934304", "125"},
        {"grams", "250", "250", "1"},
        {"ply", "2.5", "5", "2"},
    };
    assert_cells(*state, false, cases, COUNT(cases));
}

static void a_literal_is_read_as_it_says(void **state)
{
    static const struct cell_case cases[] = {
        {"percent_", "6.5%", "13", "200"},
        {"number_", "6.5%", "13", "200"},
        {"money_", "$7.80", "39", "5"},
        {"money_", "7.80 USD", "39", "5"},
        {"money_", "USD 7.80", "39", "5"},
        {"money_", "7.80 $", "39", "5"},
        {"money_", "-$0.04", "-1", "25"},
        {"money_", "$9.60 per 200", "6", "125"},
        {"money_", "$3 per dozen", "1", "4"},
        {"money_", "$0.40 each", "2", "5"},
        {"minutes", "25 min", "1500", "1"},
        {"minutes", "25min", "1500", "1"},
        {"minutes", "1 h 20 min", "4800", "1"},
        {"minutes", "1.5 h", "5400", "1"},
        {"minutes", "1-1/2 h", "5400", "1"},
        {"minutes", "90 s", "90", "1"},
        {"length_", "5 ft 3 in", "8001", "5"},
        {"length_", "3/4 in", "381", "20"},
        {"length_", "1-1/2 in", "381", "10"},
        {"length_", "120 cm", "1200", "1"},
        {"boards", "144 in^3", "294967152", "125"},
        {"boards", "1.8 bf", "2654704368", "625"},
        {"area_", "2 sqft", "4645152", "25"},
        {"grams", "1 kg", "1000", "1"},
        {"grams", "2 lb 3 oz", "317514659", "320000"},
        {"energy_", "2 kWh", "2000", "1"},
        {"ply", "3/4 sheet", "3", "4"},
        {"wage", "$26 per h", "13", "1800"},
        {"fuel", "$18 per 5 l", "9", "2500000"},
        {"flag_", "yes", "1", "1"},
        {"flag_", "no", "0", "1"},
        {"flag_", "TRUE", "1", "1"},
        {"flag_", "False", "0", "1"},
        {"flag_", "1", "1", "1"},
        {"flag_", "0", "0", "1"},
    };
    assert_cells(*state, false, cases, COUNT(cases));
}

static void thousands_are_parted_by_fixed_spaces_and_in_money_by_commas(void **state)
{
    static const struct cell_case cases[] = {
        {"money_", "$1,250", "1250", "1"},
        {"money_", "1,234,567.50 USD", "2469135", "2"},
        {"number_",
         "1\xC2\xA0"
         "850",
         "1850", "1"}, /* no-break space */
        {"number_",
         "1\xE2\x80\xAF"
         "850.5",
         "3701", "2"}, /* narrow no-break space */
        {"minutes", "25\xC2\xA0min", "1500", "1"},
        {"money_", "-1,850", "-1850", "1"},
    };
    assert_cells(*state, false, cases, COUNT(cases));
}

static void a_sheet_may_have_a_decimal_comma(void **state)
{
    static const struct cell_case cases[] = {
        {"money_", "7,80", "39", "5"},
        {"money_", "$7,80", "39", "5"},
        {"money_", "1.234,50", "2469", "2"},
        {"number_",
         "1\xC2\xA0"
         "850,5",
         "3701", "2"},
        {"number_", ",5", "1", "2"},
        {"percent_", "6,5%", "13", "200"},
        {"minutes", "1,5 h", "5400", "1"},
        {"length_", "5 ft 3,5 in", "16129", "10"}, /* 63.5 in */
        {"uses", "linseed_oil 7,5 ml", "27", "1000"},
    };
    assert_cells(*state, true, cases, COUNT(cases));
}

static void parts_are_worth_their_materials_prices(void **state)
{
    static const struct cell_case cases[] = {
        {"uses", "screws 8", "48", "125"},                      /* 8 x 0.048 */
        {"uses", "screws 8 + linseed_oil 15 ml", "219", "500"}, /* 0.384 + 0.054 */
        {"uses", "twine 3/4 m", "9", "400"},                    /* 0.75 x 0.03 */
        {"uses", "screws 1 dozen", "72", "125"},
        {"uses", "olive 1 kg", "480", "61"}, /* 1 kg is 1/0.915 l at $7.20 */
        {"uses", "flour 250 g", "1", "2"},
        {"uses", "flour 2 l", "2", "1"}, /* a kilogram */
        {"uses", "screws 4 + screws 4", "48", "125"},
        {"uses", "", "0", "1"},
    };
    assert_cells(*state, false, cases, COUNT(cases));
}

static void a_text_stands_as_it_is_without_the_spaces_around_it(void **state)
{
    struct bench *bench = *state;
    static const struct {
        const char *cell, *text;
    } cases[] = {
        {"larch", "larch"},
        {"  larch \t", "larch"},
        {"two words", "two words"},
        {"\"larch\"", "\"larch\""},
        {"1,250", "1,250"},
        {"a # b", "a # b"},
        {"L\xC3\xA4rche", "L\xC3\xA4rche"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        groat_trouble trouble;
        char text[64];
        groat_text cell = {cases[i].cell, strlen(cases[i].cell)};
        assert_int_equal(set_cell(bench, "name", cell, false, &trouble), GROAT_OK);
        groat_value_write(value_of(bench, "name"), 2, text, sizeof text);
        assert_string_equal(text, cases[i].text);
    }
}

static void a_date_is_read_and_written_alike(void **state)
{
    struct bench *bench = *state;
    static const char *const dates[] = {"2027-01-31", "2024-02-29", "1970-01-01", "0001-01-01"};
    for (size_t i = 0; i < COUNT(dates); i++) {
        groat_trouble trouble;
        char text[64];
        groat_text cell = {dates[i], strlen(dates[i])};
        assert_int_equal(set_cell(bench, "made_on", cell, false, &trouble), GROAT_OK);
        groat_value_write(value_of(bench, "made_on"), 2, text, sizeof text);
        assert_string_equal(text, dates[i]);
    }
}

static void an_empty_cell_is_a_missing_value(void **state)
{
    struct bench *bench = *state;
    static const char *const cells[] = {"", " ", "\t  "};
    for (size_t i = 0; i < COUNT(cells); i++) {
        for (size_t field = 0; field < groat_method_fields(bench->method); field++) {
            groat_trouble trouble;
            const char *name = groat_method_field(bench->method, field).name;
            groat_text cell = {cells[i], strlen(cells[i])};
            assert_int_equal(set_cell(bench, name, cell, false, &trouble), GROAT_OK);
            assert_int_equal(value_of(bench, name).presence, GROAT_MISSING);
        }
    }
}

/* ---- what is refused ---- */

struct refused_case {
    const char *field, *cell, *message, *help;
};

static void assert_refused(struct bench *bench, const struct refused_case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        groat_trouble trouble;
        groat_text cell = {cases[i].cell, strlen(cases[i].cell)};
        groat_status status = set_cell(bench, cases[i].field, cell, false, &trouble);
        bool as_wanted = status == GROAT_BAD_VALUE &&
                         strcmp(trouble.message, cases[i].message) == 0 &&
                         strcmp(tried(&trouble), cases[i].help) == 0;
        if (!as_wanted)
            fail_msg("%s of %s:\n  %s (%s)\nnot\n  %s (%s)", cases[i].cell, cases[i].field,
                     trouble.message, tried(&trouble), cases[i].message, cases[i].help);
    }
}

static void a_number_that_needs_something_is_told_what(void **state)
{
    static const struct refused_case cases[] = {
        {"percent_", "6.5", "a percentage needs a % sign", "6.5%"},
        {"count_", "-1", "a count must be a whole number, not below zero", "1"},
        {"count_", "1.5", "a count must be a whole number, not below zero", ""},
        {"length_", "12", "this number needs a unit; length_ is length", "12 mm"},
        {"area_", "2", "this number needs a unit; area_ is area", "2 sqm"},
        {"energy_", "2", "this number needs a unit; energy_ is energy", "2 kWh"},
        {"wage", "26", "this number needs a unit; wage is money per time", "$26 per h"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void another_dimension_is_told_apart(void **state)
{
    static const struct refused_case cases[] = {
        {"minutes", "3 kg", "this is mass; minutes is time", "for example 1 h 20 min"},
        {"minutes", "$3", "this is money; minutes is time", "for example 1 h 20 min"},
        {"money_", "$5 per h", "this is money per time; money_ is money", "for example 3.20"},
        {"count_", "3 kg", "this is mass; count_ is a plain number", "for example 12"},
        {"number_", "yes", "this is yes or no; number_ is a plain number", "for example 12.50"},
        {"made_on", "12", "this is a plain number; made_on is a date", "for example 2027-01-31"},
        {"length_", "2 sqft", "this is area; length_ is length", "for example 12 mm"},
        {"minutes", "1 h 20 g", "the parts of one amount must all have the same dimension",
         "for example 1 h 20 min"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void a_unit_or_currency_that_is_not_ours_is_named(void **state)
{
    static const struct refused_case cases[] = {
        {"money_",
         "\xE2\x82\xAC"
         "3",
         "\xE2\x82\xAC is not the money of this shop, which counts in USD, as `currency` in its "
         "rules says",
         "$3"},
        {"money_", "3 EUR",
         "EUR is another currency; this shop counts in USD, as `currency` in its rules says", "$3"},
        {"boards", "2 gal", "gal can mean more than one unit", "usgal or ukgal"},
        {"minutes", "2 minutes", "minutes is not a unit", "2 min"},
        {"minutes", "2 hours", "hours is not a unit", "2 h"},
        {"grams", "2 xyzzy", "xyzzy is not a unit", "for example 250 g"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void what_is_no_literal_is_refused(void **state)
{
    static const struct refused_case cases[] = {
        {"number_", "3 + 4", "this is not a value; number_ is a plain number", "for example 12.50"},
        {"number_", "money_", "this is not a value; number_ is a plain number",
         "for example 12.50"},
        {"flag_", "maybe", "this is neither yes nor no", "yes or no"},
        {"flag_", "2", "this is neither yes nor no", "yes or no"},
        {"made_on", "2027-1-31",
         "a date needs four digits for the year and two each for month and day", "2027-01-31"},
        {"made_on", "2027-02-30", "there is no such day in the calendar", "for example 2027-01-31"},
        {"made_on", "31.01.2027", "this is not a value; made_on is a date", "2027-01-31"},
        {"number_", "about 5 or 6", "this is not a value; number_ is a plain number",
         "for example 12.50"},
        {"money_", "$", "this is not a value; money_ is money", "for example 3.20"},
        {"minutes", "-", "this is not a value; minutes is time", "leave the cell empty"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

/* Each proposal is held to be read; that it is also what was meant is for these to say. */
static void what_is_tried_is_the_cell_s_own_number(void **state)
{
    static const struct {
        const char *field, *cell, *help;
    } cases[] = {
        {"money_", "2 dollars", "$2"},
        {"money_", "$2\xE2\x80\x93$3", "$2 to $3"},
        {"money_", "$2 - $3.50", "$2 to $3.50"},
        {"money_", "$2..$3", "$2 to $3"},
        {"money_", "n/a", "leave the cell empty"},
        {"money_", "None", "leave the cell empty"},
        {"money_", "two", "2"},
        {"money_", "some", "for example 3.20"},
        {"money_", "$7,80", "$7.80"},
        {"money_", "US$5.60", "5.60"},
        {"money_", "$4.2O", "$4.20"},
        {"count_", "six", "6"},
        {"count_", "many", "for example 12"},
        {"count_",
         "4\xE2\x80\x93"
         "5",
         "4 to 5 likely 4"},
        {"number_", "2.2E+01", "22"},
        {"number_", "1.25e-2", "0.0125"},
        {"minutes", "1:15", "1 h 15 min"},
        {"minutes", "1:15:00", "1 h 15 min"},
        {"minutes", "1\xC2\xBD h", "1-1/2 h"},
        {"minutes", "2 hours 20 minutes", "2 h 20 min"},
        {"minutes", "1 h and 20 min", "1 h 20 min"},
        {"minutes", "1 h 20 MIN", "1 h 20 min"},
        {"minutes", "55 min.", "55 min"},
        {"minutes", "(50)", "50"},
        {"minutes", "35?", "35"},
        {"minutes", "'40", "40"},
        {"minutes",
         "\xE2\x80\x9C"
         "5"
         "\xE2\x80\x9D",
         "5"},
        {"minutes", "4-Mar", "for example 1 h 20 min"},
        {"minutes", "#REF!", "leave the cell empty"},
        {"length_", "14\"", "14 in"},
        {"length_", "5' 3\"", "5 ft 3 in"},
        {"length_", "44 1/2\"", "44-1/2 in"},
        {"length_", "1-1/4 inches", "1-1/4 in"},
        {"percent_", "0.08", "8%"},
        {"percent_", "0.065", "6.5%"},
        {"percent_", ".5", "50%"},
        {"percent_", "0.10", "10%"},
        {"percent_", "0.0650", "6.5%"},
        {"percent_", "0.005", "0.5%"},
        {"percent_", "0", "0%"},
        {"percent_", "1", "1%"},
        {"percent_", "10 %", "10%"},
        {"percent_", "10 percent", "10%"},
        {"percent_", "10 kg", "for example 12.50"},
        {"percent_", "0.05 to 0.08", "5% to 8%"},
        {"number_", "$20", "20"},
        {"count_", "12 pcs", "12"},
        {"minutes", "20m", "20 min"},
        {"minutes", "1h30", "1 h 30 min"},
        {"minutes",
         "20\xE2\x80\x93"
         "25 min",
         "20 to 25 min"},
        {"minutes", "$3", "for example 1 h 20 min"},
        {"grams", "3 kgs", "3 kg"},
        {"wage", "$21/h", "$21 per h"},
        {"wage", "21 per hour", "$21 per h"},
        {"wage", "$21 an hour", "$21 per h"},
        {"fuel", "$3", "$3 per l"},
        {"uses", "8 screws", "screws 8"},
        {"uses", "15 ml linseed_oil, 8 screws & 2 m twine",
         "linseed_oil 15 ml + screws 8 + twine 2 m"},
        {"uses", "screws 64 linseed_oil 150 ml", "screws 64 + linseed_oil 150 ml"},
        {"uses", "screws 8 and twine 2 m", "screws 8 + twine 2 m"},
        {"uses", "linseed_oil 15 ML", "linseed_oil 15 ml"},
        {"uses", "twine", "for example twine 2 m"},
        {"uses", "some of it", "for example screws 8"},
        {"flag_", "Y", "yes"},
        {"flag_", "n", "no"},
        {"made_on", "31.1.2027", "2027-01-31"},
        {"made_on", "1/31/2027", "2027-01-31"},
        {"made_on", "1/2/2027", "for example 2027-01-31"},
        {"made_on", "12/13/2027", "2027-12-13"},
        {"made_on", "12/5/2027", "for example 2027-01-31"},
        {"money_",
         "$2\xE2\x80\x94"
         "$3",
         "$2 to $3"},
        {"money_", "$2\xE2\x80\xA6$3", "$2 to $3"},
        {"minutes", "40 mn", "40 min"},
        {"grams", "3 Oz", "3 oz"},
        {"grams", "3 OZ", "3 oz"},
        {"uses", "8 screws + twine", "for example screws 8"},
        /* of more than a hundred letters nothing is tried */
        {"uses",
         "8 screws + 8 screws + 8 screws + 8 screws + 8 screws + 8 screws + 8 screws + 8 screws + "
         "8 screws + 8 screws",
         "for example screws 8"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        groat_trouble trouble;
        groat_text cell = {cases[i].cell, strlen(cases[i].cell)};
        assert_int_equal(set_cell(*state, cases[i].field, cell, false, &trouble), GROAT_BAD_VALUE);
        if (strcmp(tried(&trouble), cases[i].help) != 0)
            fail_msg("%s of %s: Try: %s, not %s", cases[i].cell, cases[i].field, tried(&trouble),
                     cases[i].help);
    }
}

static void what_is_tried_keeps_a_decimal_comma(void **state)
{
    groat_trouble trouble;
    set_cell(*state, "percent_", (groat_text){"0,065", 5}, true, &trouble);
    assert_string_equal(trouble.help, "6,5%");
    set_cell(*state, "money_", (groat_text){"2,50 dollars", 12}, true, &trouble);
    assert_string_equal(trouble.help, "$2,50");
}

/* Kitchen scales show `0,250`: read as thousands it would be a thousand times too much. */
static void a_sign_that_may_divide_thousands_or_begin_decimals_is_refused(void **state)
{
    static const char comma[] = "this comma may divide thousands or begin decimals";
    static const char help[] = "a point before the decimals, and no separator between thousands";
    static const struct refused_case cases[] = {
        {"money_", "7,80", comma, "7.80"},     {"money_", "0,250", comma, help},
        {"money_", "1234,567", comma, help},   {"number_", "1,850", comma, help},
        {"minutes", "1,000 s", comma, help},   {"length_", "2,5 mm", comma, "2.5 mm"},
        {"uses", "screws 1,000", comma, help},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void a_measure_below_zero_is_refused(void **state)
{
    static const struct refused_case cases[] = {
        {"minutes", "-5", "minutes is time, which cannot be below zero", "5"},
        {"length_", "-2 mm", "length_ is length, which cannot be below zero", "2 mm"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void parts_that_cannot_be_are_refused(void **state)
{
    static const struct refused_case cases[] = {
        {"uses", "scrws 8", "there is no material scrws", "screws 8"},
        {"uses", "gold 3 g", "there is no material gold", "for example screws 8"},
        {"uses", "screws 8 g", "screws is bought by the piece, but this is mass", ""},
        {"uses", "linseed_oil 15", "linseed_oil is bought by volume, but this is a plain number",
         "linseed_oil 15 ml"},
        {"uses", "linseed_oil 5", "linseed_oil is bought by volume, but this is a plain number",
         "linseed_oil 5 l"},
        {"uses", "linseed_oil 15 g",
         "linseed_oil is bought by volume, but this is mass; add its weight to the rules, `weighs "
         "… kg per l` after the price",
         ""},
        {"uses", "twine 2 sqm", "twine is bought by length, but this is area", ""},
        {"uses", "8 screws", "this is not a list of parts", "screws 8"},
        {"uses", "screws 8, twine 2 m", "this is not a list of parts", "screws 8 + twine 2 m"},
        {"uses", "screws", "this is not a list of parts", "for example screws 8"},
    };
    assert_refused(*state, cases, COUNT(cases));
}

static void a_cell_that_is_not_text_is_refused(void **state)
{
    struct bench *bench = *state;
    static const char *const fields[] = {"name", "number_", "minutes", "flag_", "made_on", "uses"};
    for (size_t i = 0; i < COUNT(fields); i++) {
        groat_trouble trouble;
        assert_int_equal(set_cell(bench, fields[i], (groat_text){"12\xE9", 3}, false, &trouble),
                         GROAT_BAD_VALUE);
        assert_string_equal(trouble.message, "this cell is not valid UTF-8");
        assert_string_equal(trouble.help, "save the sheet as UTF-8");
        assert_int_equal(set_cell(bench, fields[i], (groat_text){"1\0002", 3}, false, &trouble),
                         GROAT_BAD_VALUE);
        assert_string_equal(trouble.message, "this cell contains a zero byte");
    }
}

/* A text of the one character, in memory of exactly its size. */
static char *long_cell(char character, size_t length)
{
    char *cell = malloc(length);
    assert_non_null(cell);
    memset(cell, character, length);
    return cell;
}

static void a_huge_cell_is_refused(void **state)
{
    struct bench *bench = *state;
    groat_trouble trouble;
    size_t most = groat_limits_default().source_bytes;
    char *digits = long_cell('9', 100000);
    assert_int_equal(set_cell(bench, "number_", (groat_text){digits, 100000}, false, &trouble),
                     GROAT_BAD_VALUE);
    assert_string_equal(trouble.message, "this number has more digits than the engine can handle");
    char *letters = long_cell('x', most + 1);
    assert_int_equal(set_cell(bench, "name", (groat_text){letters, most + 1}, false, &trouble),
                     GROAT_BAD_VALUE);
    assert_string_equal(trouble.message, "this cell is longer than the engine can read");
    char *open = long_cell('(', 100000);
    assert_int_equal(set_cell(bench, "number_", (groat_text){open, 100000}, false, &trouble),
                     GROAT_BAD_VALUE);
    free(digits);
    free(letters);
    free(open);
}

static void a_refused_cell_leaves_the_record_as_it_was(void **state)
{
    struct bench *bench = *state;
    groat_trouble trouble;
    char top[32];
    assert_int_equal(set_cell(bench, "minutes", (groat_text){"25 min", 6}, false, &trouble),
                     GROAT_OK);
    assert_int_equal(set_cell(bench, "minutes", (groat_text){"3 kg", 4}, false, &trouble),
                     GROAT_BAD_VALUE);
    groat_value_top(value_of(bench, "minutes"), top, sizeof top);
    assert_string_equal(top, "1500");
}

static void a_refusal_says_where_in_the_cell(void **state)
{
    struct bench *bench = *state;
    groat_trouble trouble;
    set_cell(bench, "minutes", (groat_text){"1 h 20 minuts", 13}, false, &trouble);
    assert_string_equal(trouble.message, "minuts is not a unit");
    assert_int_equal(trouble.column, 8);
    set_cell(bench, "count_", (groat_text){"1.5", 3}, false, &trouble);
    assert_int_equal(trouble.column, 0);
    set_cell(bench, "uses", (groat_text){"screws 8 + + twine 2 m", 22}, false, &trouble);
    assert_string_equal(trouble.message, "this is not a list of parts");
    assert_int_equal(trouble.column, 12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_bare_number_is_read_in_the_fields_unit),
        cmocka_unit_test(a_literal_is_read_as_it_says),
        cmocka_unit_test(thousands_are_parted_by_fixed_spaces_and_in_money_by_commas),
        cmocka_unit_test(a_sheet_may_have_a_decimal_comma),
        cmocka_unit_test(parts_are_worth_their_materials_prices),
        cmocka_unit_test(a_text_stands_as_it_is_without_the_spaces_around_it),
        cmocka_unit_test(a_date_is_read_and_written_alike),
        cmocka_unit_test(an_empty_cell_is_a_missing_value),
        cmocka_unit_test(a_number_that_needs_something_is_told_what),
        cmocka_unit_test(another_dimension_is_told_apart),
        cmocka_unit_test(a_unit_or_currency_that_is_not_ours_is_named),
        cmocka_unit_test(what_is_no_literal_is_refused),
        cmocka_unit_test(what_is_tried_is_the_cell_s_own_number),
        cmocka_unit_test(what_is_tried_keeps_a_decimal_comma),
        cmocka_unit_test(a_sign_that_may_divide_thousands_or_begin_decimals_is_refused),
        cmocka_unit_test(a_measure_below_zero_is_refused),
        cmocka_unit_test(parts_that_cannot_be_are_refused),
        cmocka_unit_test(a_cell_that_is_not_text_is_refused),
        cmocka_unit_test(a_huge_cell_is_refused),
        cmocka_unit_test(a_refused_cell_leaves_the_record_as_it_was),
        cmocka_unit_test(a_refusal_says_where_in_the_cell),
    };
    return cmocka_run_group_tests(tests, open_bench, bench_close);
}
