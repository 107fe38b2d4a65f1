/* A price does not depend on what was priced before it: a scratch that has priced other records, on
 * other channels and at other rates, gives what a new one gives, to the last figure and word. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/rules_text.h"
#include "property/chance.h"
#include "property/choices.h"

enum { ROUNDS = 20000, METHODS = 4, RECORDS = 3 };

static groat_method *base, *methods[METHODS];
static groat_record *records[RECORDS];
static size_t outcomes[4];

/* ---- what is priced ---- */

static int open_shop(void **state)
{
    struct text rules = text_of_file("tests/fault/everything.rules"), shared = {0};
    groat_reading reading = {.loader = load_fault_file, .loader_context = &shared};
    groat_report *report;
    (void)state;
    base = groat_method_read("everything.rules", (groat_text){rules.start, rules.length}, &reading,
                             &report);
    report_print(report);
    groat_report_free(report);
    text_free(&rules);
    text_free(&shared);
    return base ? 0 : -1;
}

static int close_shop(void **state)
{
    (void)state;
    for (size_t i = 0; i < METHODS; i++)
        groat_method_free(methods[i]);
    for (size_t i = 0; i < RECORDS; i++)
        groat_record_free(records[i]);
    groat_method_free(base);
    printf("priced %zu, not sold %zu, refused %zu, failed %zu\n", outcomes[GROAT_PRICED],
           outcomes[GROAT_NOT_SOLD], outcomes[GROAT_REFUSED], outcomes[GROAT_FAILED]);
    return 0;
}

/* Other rates in the place of one of the methods, which goes. */
static void make_method(size_t place)
{
    static const char *const rates[] = {"hourly", "timber_price", "polish", "screws"};
    static const char *const values[][3] = {
        {"$25 per h", "$31.07 per h", "$26 per h"},
        {"$7.80 per bf", "$9 per bf", "$0.123456789123456789 per bf"},
        {"$2 per sqm", "$0 per sqm", "$1.30 per sqm"},
        {"$9.60 per 200", "$4 per 70", "$12 per 200"}};
    groat_rate_value given[2];
    groat_trouble trouble = {.message = ""};
    for (size_t i = 0; i < 2; i++) {
        size_t rate = random_below(4);
        given[i] = (groat_rate_value){.rate = rates[rate], .value = values[rate][random_below(3)]};
    }
    groat_method_free(methods[place]);
    methods[place] = groat_method_with_rates(base, given, random_below(3), &trouble);
    if (!methods[place])
        print_message("%s: %s\n", given[0].value, trouble.message);
    assert_non_null(methods[place]);
}

/* One field anew. */
static void change_field(groat_record *record)
{
    const char *const *row =
        everything_cells[random_below(sizeof everything_cells / sizeof *everything_cells)];
    groat_trouble trouble = {.message = ""};
    assert_int_equal(set_cell(record, base, row[0], row[1 + random_below(CELLS - 1)], &trouble),
                     GROAT_OK);
}

static void make_record(size_t place)
{
    if (records[place] && random_below(2)) {
        groat_record_clear(records[place]);
    } else {
        groat_record_free(records[place]);
        records[place] = groat_record_new(base);
    }
    assert_non_null(records[place]);
    for (int i = 0; i < 8; i++)
        change_field(records[place]);
}

/* ---- what comes of it ---- */

/* Everything that can be asked of a result; names and goals not always, as they are worked out when
 * asked for. */
static void write_result(struct text *text, groat_scratch *scratch, groat_outcome outcome, bool all)
{
    static const char *const names[] = {"wood", "hands", "boards", "commission", "bulk"};
    text_append(text, "%d %s\n", (int)outcome, groat_result_reason(scratch));
    for (int figure = GROAT_LIST; figure <= GROAT_TAKE_HOME; figure++)
        text_value(text, "figure", groat_result_figure(scratch, (groat_figure)figure));
    for (size_t i = 0; i < groat_method_shows(base); i++)
        text_value(text, "show", groat_result_show(scratch, i));
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        text_append(text, "%s\n", groat_result_note(scratch, i));
    text_append(text, "footing %d\n", (int)groat_result_footing(scratch));
    for (size_t i = 0; i < sizeof names / sizeof *names && all; i++)
        text_value(text, names[i], groat_result_named(scratch, names[i]));
}

enum question { FOUND, AT, WITHOUT_LOSS, FOR_GOAL, QUESTIONS };

static void ask(struct text *text, groat_scratch *scratch, enum question question,
                const groat_method *method, const groat_record *record, const groat_order *order,
                bool all)
{
    groat_outcome outcome;
    switch (question) {
    case AT: outcome = groat_price_at(scratch, method, record, order, 2350); break;
    case WITHOUT_LOSS: outcome = groat_price_without_loss(scratch, method, record, order); break;
    case FOR_GOAL: outcome = groat_price_for_goal(scratch, method, record, order, 1); break;
    default: outcome = groat_price(scratch, method, record, order); break;
    }
    outcomes[outcome]++;
    write_result(text, scratch, outcome, all);
}

static void a_price_is_the_same_whatever_was_priced_before(void **state)
{
    (void)state;
    for (size_t i = 0; i < METHODS; i++)
        make_method(i);
    for (size_t i = 0; i < RECORDS; i++)
        make_record(i);
    groat_scratch *old = groat_scratch_new(base);
    groat_order order = {.channel = 0, .quantity = 1};
    const groat_method *method = base;
    size_t record = 0;
    for (int i = 0; i < ROUNDS; i++) {
        size_t place = random_below(METHODS);
        switch (random_below(12)) {
        case 0: make_record(record = random_below(RECORDS)); break;
        case 1: record = random_below(RECORDS); break;
        case 2: change_field(records[record]); break;
        case 3: order.quantity = (int64_t[]){1, 2, 5, 30}[random_below(4)]; break;
        case 4: order.as_of = random_below(2) ? "2027-02-01" : NULL; break;
        case 5:
            make_method(place);
            method = methods[place];
            break;
        case 6: method = methods[place]; break;
        default: order.channel = random_below(groat_method_channels(base)); break;
        }
        enum question question = random_below(4) ? FOUND : (enum question)random_below(QUESTIONS);
        bool all = random_below(3) == 0;
        struct text with_past = {0}, without = {0};
        groat_scratch *new = groat_scratch_new(base);
        ask(&with_past, old, question, method, records[record], &order, all);
        ask(&without, new, question, method, records[record], &order, all);
        assert_string_equal(with_past.start, without.start);
        groat_scratch_free(new);
        text_free(&with_past);
        text_free(&without);
    }
    groat_scratch_free(old);
    assert_true(outcomes[GROAT_PRICED] > ROUNDS / 2 && outcomes[GROAT_FAILED] > 100);
    assert_true(outcomes[GROAT_NOT_SOLD] > 100);
}

/* Many pricings on another channel lie between two on this one. */
static void a_price_follows_the_record_the_quantity_and_the_date(void **state)
{
    (void)state;
    groat_method *method =
        read_right("currency USD $\n"
                   "product { weight number = 1 }\n"
                   "rate apiece = $1\n"
                   "table early by as_of { below 2027-06-01 : $2; otherwise : $3 }\n"
                   "cost whole = apiece * weight + $60 / quantity + early\n"
                   "channel one { price { set cost } }\n"
                   "channel two { price { set cost } }\n");
    assert_non_null(method);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_trouble trouble;
    const struct {
        int64_t quantity;
        const char *as_of;
        const char *price; /* by hand: 1 * weight + 60 / quantity + 2 or 3 */
    } orders[] = {{1, "2027-01-01", "63.00"}, {2, "2027-01-01", "33.00"},
                  {2, "2027-07-01", "34.00"}, {3, "2027-07-01", "24.00"},
                  {3, "2027-05-31", "23.00"}, {1, "2027-06-01", "64.00"}};
    for (size_t between = 0; between < 40; between++) {
        for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
            char text[40];
            groat_order order = {0, orders[i].quantity, orders[i].as_of};
            assert_int_equal(set_cell(record, method, "weight", "1", &trouble), GROAT_OK);
            assert_int_equal(groat_price(scratch, method, record, &order), GROAT_PRICED);
            groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, text, sizeof text);
            assert_string_equal(text, orders[i].price);
            order = (groat_order){1, orders[(i + 1) % 6].quantity, orders[(i + 1) % 6].as_of};
            for (size_t k = 0; k < between; k++) {
                groat_price(scratch, method, record, &order);
                set_cell(record, method, "weight", k % 2 ? "2" : "3", &trouble);
            }
        }
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

static void allowed_prices_move_with_the_rate_of_their_band(void **state)
{
    (void)state;
    groat_method *plain = read_right("currency USD $\n"
                                     "rate edge = $50\n"
                                     "rate worth_it = $60\n"
                                     "rounding steps { below edge : ends in .99\n"
                                     "                 otherwise : every $5 }\n"
                                     "price { set worth_it; round up to steps }\n");
    assert_non_null(plain);
    groat_trouble trouble;
    groat_rate_value edge = {.rate = "edge", .value = "$100"};
    groat_rate_value dearer = {.rate = "worth_it", .value = "$61"};
    const groat_method *all[] = {plain, groat_method_with_rates(plain, &edge, 1, &trouble),
                                 groat_method_with_rates(plain, &dearer, 1, &trouble)};
    static const char *const prices[] = {"60.00", "60.99", "65.00"}; /* by hand */
    groat_record *record = groat_record_new(plain);
    groat_scratch *scratch = groat_scratch_new(plain);
    groat_order order = {.channel = 0, .quantity = 1};
    for (size_t i = 0; i < 9; i++) {
        size_t which = (i + i / 3) % 3;
        char text[40];
        assert_non_null(all[which]);
        assert_int_equal(groat_price(scratch, all[which], record, &order), GROAT_PRICED);
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, text, sizeof text);
        assert_string_equal(text, prices[which]);
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
    for (size_t i = 0; i < 3; i++)
        groat_method_free((groat_method *)(uintptr_t)all[i]);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_price_is_the_same_whatever_was_priced_before),
        cmocka_unit_test(a_price_follows_the_record_the_quantity_and_the_date),
        cmocka_unit_test(allowed_prices_move_with_the_rate_of_their_band),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("a scratch that was used before", tests, open_shop,
                                       close_shop);
}
