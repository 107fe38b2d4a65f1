/* Whatever a scratch was asked before, and whether or not memory held out for it, it answers as a new
 * one does: prices, given prices, prices without loss and for a goal, explanations and whole columns, in
 * any order, while records and methods come and go. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/counting.h"
#include "fault/rules_text.h"
#include "property/chance.h"
#include "property/choices.h"

enum { ROUNDS = 4000, METHODS = 4, RECORDS = 3 };

/* Large numbers among what rates alone decide, ranges, a required field, goals and a shared price. */
static const char *const large_rules =
    "currency KWD\n"
    "product {\n"
    "    name  text\n"
    "    stuff number = 1.000000000123456789 to 2.000000000987654321\n"
    "    hands time as min = 10 min to 30 min likely 12 min\n"
    "    agreed money optional\n"
    "    share  number = 1/1000000007\n"
    "}\n"
    "rate fine   = 1.123456789123\n"
    "rate finer  = fine * 1.987654321987\n"
    "rate hourly = 12 KWD per h to 18 KWD per h\n"
    "rate step   = 0.250 KWD\n"
    "let  finest = finer * finer * fine\n"
    "let  always = 1.123456789123 * 1.987654321987 * 1.123456789123\n"
    "rounding steps { below 8 KWD : every step; otherwise : every 1 KWD }\n"
    "cost goods  = stuff * finest * 1 KWD\n"
    "cost other  = (always at most stuff) * 1 KWD + share * 1 KWD / 999999937\n"
    "pay  work   = hands * hourly\n"
    "table cut by price sliced { up to 20 KWD : 9%; otherwise : fine * 4% }\n"
    "channel fair   { fee stand = cut at most 2.5 KWD }\n"
    "channel shop   { fee part_ = 30% of price; tax included 5% }\n"
    "channel online { buyer pays post = 1.500 KWD; tax added 7%; fee cut_ = 11% of paid\n"
    "                 only when stuff < 3 }\n"
    "channel twin   { fee half = 31% of price }\n"
    "same price on shop, twin\n"
    "channel bound  { price { set list on fair * 1.3 } }\n"
    "price { aim margin >= 25%; pin agreed; round up to steps\n"
    "        discount (if quantity >= 5 then 10% else 0%) }\n"
    "show rate_of_pay as KWD per h = take_home / hands\n"
    "show big = finest * stuff\n"
    "warn \"little\" when profit < 2 KWD\n"
    "goal \"kiln\" { needs 900 KWD; gives profit }\n"
    "goal \"wage\" { needs 400 KWD per month; gives take_home; takes hands + 5 min\n"
    "              has 60 h per month }\n";

/* What may be put in the place of a rate. */
static choices everything_rates[] = {
    {"hourly", "$25 per h", "$31.07 per h", "+10%"},
    {"timber_price", "$7.80 per bf", "$0.123456789123456789 per bf", "-3.7%"},
    {"polish", "$2 per sqm", "$0 per sqm", "$1 to $3 per sqm"},
    {"screws", "$9.60 per 200", "$4 per 70", "$12 per 200"},
};
static choices large_cells[] = {
    {"name", "a pot", "a bowl", "a cup"},
    {"stuff", "1", "0.333333333333333333333 to 4", "3.14159265358979"},
    {"hands", "5 min to 9 min", "0 min", ""},
    {"agreed", "", "5.005", ""},
    {"share", "", "0.000000123456789012345", "0"},
};
static choices large_rates[] = {
    {"fine", "1.123456789123", "1", "1.5"},
    {"finer", "2", "3.000000000000000000001", "-0.1%"},
    {"hourly", "13 KWD per h", "11 KWD per h to 20 KWD per h", "+7%"},
    {"step", "0.250 KWD", "0.100 KWD", "0.500 KWD"},
};

struct kept {
    const choices *cells, *rates;
    size_t cells_count, rates_count;
    const char *names[8];
};
static const struct kept everything = {
    everything_cells,
    everything_rates,
    sizeof everything_cells / sizeof *everything_cells,
    4,
    {"wood", "hands", "boards", "commission", "bulk", "margin", "cut", "hourly"}};
static const struct kept large = {
    large_cells,
    large_rates,
    sizeof large_cells / sizeof *large_cells,
    4,
    {"goods", "other", "work", "finest", "cut", "always", "take_home", "big"}};

/* ---- a shop that changes ---- */

static const struct kept *kept;
static struct counting counting;
static groat_method *base, *methods[METHODS];
static groat_record *records[RECORDS];
static size_t outcomes[4], starved, limited;

/* With a fee of many bends. */
static void write_large_rules(struct text *rules)
{
    text_add(rules, large_rules, strlen(large_rules));
    text_append(rules, "channel steep { fee tier_ = tier }\ntable tier by price {\n");
    for (int row = 1; row <= 12; row++)
        text_append(rules, "    below %d.100 KWD : %d%% of price\n", row, 40 - row % 3);
    text_append(rules, "    otherwise : 1 KWD\n}\n");
}

static void open_shop(const struct kept *which, const groat_limits *limits)
{
    struct text shared = {0}, rules = {0};
    kept = which;
    memset(methods, 0, sizeof methods);
    memset(records, 0, sizeof records);
    counting = (struct counting){0};
    if (which == &everything)
        rules = text_of_file("tests/fault/everything.rules");
    else
        write_large_rules(&rules);
    groat_allocator allocator = counting_allocator(&counting);
    groat_reading reading = {.allocator = &allocator,
                             .limits = limits,
                             .loader = load_fault_file,
                             .loader_context = &shared};
    groat_report *report;
    base =
        groat_method_read("shop.rules", (groat_text){rules.start, rules.length}, &reading, &report);
    if (!base)
        report_print(report);
    groat_report_free(report);
    text_free(&rules);
    text_free(&shared);
    assert_non_null(base);
}

static void close_shop(void)
{
    for (size_t i = 0; i < METHODS; i++)
        groat_method_free(methods[i]);
    for (size_t i = 0; i < RECORDS; i++)
        groat_record_free(records[i]);
    groat_method_free(base);
    memset(methods, 0, sizeof methods);
    memset(records, 0, sizeof records);
    printf("priced %zu, not sold %zu, refused %zu, failed %zu, beyond the limit %zu, "
           "without memory %zu\n",
           outcomes[GROAT_PRICED], outcomes[GROAT_NOT_SOLD], outcomes[GROAT_REFUSED],
           outcomes[GROAT_FAILED], limited, starved);
    assert_false(counting.wrong_size);
    assert_int_equal(counting.live_bytes, 0);
}

/* The method before goes first, so that the new one may lie where it lay. */
static void make_method(size_t place)
{
    groat_trouble trouble = {.message = ""};
    groat_rate_value given[2];
    for (size_t i = 0; i < 2; i++) {
        const char *const *row = kept->rates[random_below(kept->rates_count)];
        given[i] = (groat_rate_value){.rate = row[0], .value = row[1 + random_below(CELLS - 1)]};
    }
    groat_method_free(methods[place]);
    if (random_below(4)) {
        methods[place] = groat_method_with_rates(base, given, random_below(3), &trouble);
    } else {
        groat_lean leans[2];
        for (size_t i = 0; i < 2; i++)
            leans[i] =
                (groat_lean){random_below(groat_method_rates(base)), (groat_end)random_below(3)};
        methods[place] = groat_method_leaned(base, leans, 2, &trouble);
    }
    if (!methods[place])
        print_message("%s: %s\n", given[0].value, trouble.message);
    assert_non_null(methods[place]);
}

static void change_field(groat_record *record)
{
    groat_trouble trouble = {.message = ""};
    const char *const *row = kept->cells[random_below(kept->cells_count)];
    size_t field = groat_method_find_field(base, row[0]);
    if (random_below(4) == 0)
        groat_record_lean(record, field, (groat_end)random_below(3));
    else if (random_below(12) == 0)
        groat_record_set(record, field, (groat_text){"?!", 2}, NULL, &trouble);
    else
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
    groat_trouble trouble;
    set_cell(records[place], base, "name", "a thing", &trouble);
    for (int i = 0; i < 6; i++)
        change_field(records[place]);
}

/* ---- what is asked ---- */

enum question { FOUND, AT, WITHOUT_LOSS, FOR_GOAL, EXPLAIN, EXPLAIN_NAME, COLUMNS, QUESTIONS };

struct asked {
    enum question question;
    groat_method *method;
    groat_record *record;
    groat_order order;
    int64_t coins;
    size_t goal;
    const char *name;
};

static void add_words(struct text *text, const char *words)
{
    text_add(text, words ? words : "-", strlen(words ? words : "-"));
    text_append(text, "\n");
}

static void add_line(struct text *text, const groat_line *line)
{
    text_append(text, "part %d depth %u line %u\n", (int)line->part, line->depth, line->line);
    add_words(text, line->name);
    add_words(text, line->written);
    add_words(text, line->worked);
    add_words(text, line->amount);
    if (line->value.inside)
        text_value(text, "value", line->value);
}

static void add_explanation(struct text *text, const groat_explanation *explanation)
{
    if (!explanation)
        return;
    groat_below below = groat_explanation_below(explanation);
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++)
        add_line(text, groat_explanation_line(explanation, i));
    text_append(text, "below %d %d %d\n", (int)below.footing, below.exists, below.at_floor);
    add_words(text, below.price);
    for (size_t i = 0; i < below.misses; i++)
        add_line(text, groat_explanation_miss(explanation, i));
}

static void add_columns(struct text *text, groat_scratch *scratch, const struct asked *asked)
{
    static const int64_t tops[] = {3, 1, 7, 7, 2};
    groat_number_column column = {
        .field = groat_method_find_field(base, "share"), .tops = tops, .bottom = 1000000007};
    int64_t prices[5] = {0};
    groat_outcome found[5] = {0};
    groat_trouble trouble;
    text_append(text, "columns %d\n",
                (int)groat_price_columns(scratch, asked->method, &asked->order, &column, 1, 5,
                                         prices, found, &trouble));
    for (int i = 0; i < 5; i++)
        text_append(text, "%lld %d\n", (long long)prices[i], (int)found[i]);
}

/* The question itself, and what comes back with the answer. */
static groat_outcome ask(struct text *text, groat_scratch *scratch, const struct asked *asked)
{
    groat_outcome outcome = GROAT_FAILED;
    groat_explanation *explanation = NULL;
    const groat_method *method = asked->method;
    const groat_record *record = asked->record;
    const groat_order *order = &asked->order;
    switch (asked->question) {
    case FOUND: outcome = groat_price(scratch, method, record, order); break;
    case AT: outcome = groat_price_at(scratch, method, record, order, asked->coins); break;
    case WITHOUT_LOSS: outcome = groat_price_without_loss(scratch, method, record, order); break;
    case FOR_GOAL:
        outcome = groat_price_for_goal(scratch, method, record, order, asked->goal);
        break;
    case EXPLAIN: explanation = groat_explain(scratch, method, record, order, &outcome); break;
    case EXPLAIN_NAME:
        explanation = groat_explain_name(scratch, method, record, order, asked->name, &outcome);
        break;
    default: add_columns(text, scratch, asked); break;
    }
    text_append(text, "outcome %d\n", (int)outcome);
    add_explanation(text, explanation);
    groat_explanation_free(explanation);
    return outcome;
}

/* Each of these may work something out; in any order, and again. */
static void look_around(groat_scratch *scratch)
{
    for (uint64_t i = random_below(6); i > 0; i--) {
        switch (random_below(3)) {
        case 0: groat_result_named(scratch, kept->names[random_below(8)]); break;
        case 1: groat_result_aim(scratch); break;
        default:
            groat_result_goal(scratch, random_below(2), (groat_goal_line)random_below(4));
            break;
        }
    }
}

static void write_result(struct text *text, groat_scratch *scratch)
{
    add_words(text, groat_result_reason(scratch));
    for (int figure = GROAT_LIST; figure <= GROAT_CEILING; figure++)
        text_value(text, "figure", groat_result_figure(scratch, (groat_figure)figure));
    for (size_t i = 0; i < groat_method_shows(base); i++)
        text_value(text, "show", groat_result_show(scratch, i));
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        add_words(text, groat_result_note(scratch, i));
    text_append(text, "footing %d\n", (int)groat_result_footing(scratch));
    groat_text label = groat_result_label(scratch);
    text_add(text, label.start, label.length);
    text_append(text, "\naim %d\n", (int)groat_result_aim(scratch));
    for (size_t i = 0; i < 8; i++)
        text_value(text, kept->names[i], groat_result_named(scratch, kept->names[i]));
    for (size_t goal = 0; goal < 2; goal++)
        for (int line = GROAT_NEEDS; line <= GROAT_HAS; line++)
            text_value(text, "goal", groat_result_goal(scratch, goal, (groat_goal_line)line));
}

/* ---- in any order ---- */

static void choose_next(struct asked *asked)
{
    static const int64_t coins[] = {1, 499, 2350, 2351, 99999, 0, -5, INT64_MAX};
    size_t place = random_below(METHODS), record = random_below(RECORDS);
    switch (random_below(12)) {
    case 0:
        make_record(record);
        asked->record = records[record];
        break;
    case 1: asked->record = records[record]; break;
    case 2: change_field(records[record]); break;
    case 3: asked->order.quantity = (int64_t[]){1, 2, 5, 30, 1, 8, 3, 0}[random_below(8)]; break;
    case 4:
        asked->order.as_of =
            (const char *[]){"2027-02-01", NULL, "2026-12-31", "2027-2-1", NULL}[random_below(5)];
        break;
    case 5:
        make_method(place);
        asked->method = methods[place];
        break;
    case 6: asked->method = methods[place]; break;
    case 7: break;
    default: asked->order.channel = random_below(groat_method_channels(base)); break;
    }
    /* What went is asked of no more. */
    bool alive = false;
    for (size_t i = 0; i < METHODS; i++)
        alive = alive || asked->method == methods[i];
    if (!alive)
        asked->method = base;
    alive = false;
    for (size_t i = 0; i < RECORDS; i++)
        alive = alive || asked->record == records[i];
    if (!alive)
        asked->record = records[record];
    asked->question = random_below(2) ? FOUND : (enum question)random_below(QUESTIONS);
    asked->coins = coins[random_below(8)];
    asked->goal = random_below(2);
    asked->name = kept->names[random_below(8)];
}

/* Asks while memory runs out somewhere on the way; what comes of it is of no interest. */
static void ask_without_memory(groat_scratch *scratch, const struct asked *asked)
{
    struct text text = {0};
    counting.fail_from = counting.asked + 1 + random_below(3);
    counting.fail_to = counting.fail_from + 1 + random_below(20);
    ask(&text, scratch, asked);
    look_around(scratch);
    starved += counting.asked >= counting.fail_from;
    counting.fail_from = counting.fail_to = 0;
    text_free(&text);
}

static void compare_with_a_new_one(groat_scratch *old, const struct asked *asked)
{
    struct text with_past = {0}, without = {0};
    groat_scratch *new = groat_scratch_new(base);
    assert_non_null(new);
    outcomes[ask(&with_past, old, asked)]++;
    limited += strstr(groat_result_reason(old), "than the limit allows") != NULL;
    look_around(old);
    write_result(&with_past, old);
    ask(&without, new, asked);
    write_result(&without, new);
    if (strcmp(with_past.start, without.start) != 0)
        print_message("question %d, channel %zu, quantity %lld\n", (int)asked->question,
                      asked->order.channel, (long long)asked->order.quantity);
    assert_string_equal(with_past.start, without.start);
    groat_scratch_free(new);
    text_free(&with_past);
    text_free(&without);
}

static void interleave(const struct kept *which, const groat_limits *limits)
{
    open_shop(which, limits);
    for (size_t i = 0; i < METHODS; i++)
        make_method(i);
    for (size_t i = 0; i < RECORDS; i++)
        make_record(i);
    struct asked asked = {.method = base, .record = records[0], .order = {.quantity = 1}};
    groat_scratch *old = groat_scratch_new(base);
    assert_non_null(old);
    memset(outcomes, 0, sizeof outcomes);
    starved = limited = 0;
    for (int i = 0; i < ROUNDS; i++) {
        if (random_below(500) == 0) {
            groat_scratch_free(old);
            old = groat_scratch_new(base);
        }
        choose_next(&asked);
        if (random_below(4) == 0)
            ask_without_memory(old, &asked);
        else
            compare_with_a_new_one(old, &asked);
    }
    groat_scratch_free(old);
    assert_true(outcomes[GROAT_PRICED] > ROUNDS / 8 && outcomes[GROAT_FAILED] > 50);
    assert_true(starved > 50);
    close_shop();
}

static void a_shop_with_one_of_everything(void **state)
{
    (void)state;
    interleave(&everything, NULL);
}

static void a_shop_of_large_numbers_and_ranges(void **state)
{
    (void)state;
    interleave(&large, NULL);
}

/* So few bends that some prices are found and others are not. */
static void shops_with_low_limits(void **state)
{
    (void)state;
    for (size_t bends = 2; bends <= 6; bends += 2) {
        groat_limits limits = groat_limits_default();
        limits.bends = bends;
        interleave(&everything, &limits);
        interleave(&large, &limits);
        assert_true(limited > 50);
    }
}

/* ---- methods that go ---- */

/* Neither what literals alone decide, nor what rates decide that are the same in both methods, may be
 * looked for in a method that is no more. By hand: both products are 1,
 * but for what no cent sees. */
static void large_numbers_do_not_go_with_the_method_that_worked_them_out(void **state)
{
    (void)state;
    static const char *const rules =
        "currency USD $\n"
        "product { pieces number = 1 }\n"
        "rate fine = 1.000000000003\n"
        "rate extra = $2\n"
        "let  rates = fine * fine * fine * fine\n"
        "let  words = 1.000000000007 * 1.000000000007 * 1.000000000007\n"
        "cost each_of = rates * pieces * $3 + words * $4 / pieces + extra\n"
        "price { set cost }\n";
    static const char *const prices[] = {"8.00", "9.00", "10.00", "11.00"}; /* 3 + 4 + extra */
    struct counting books = {0};
    groat_allocator allocator = counting_allocator(&books);
    groat_reading reading = {.allocator = &allocator};
    groat_report *report;
    groat_trouble trouble;
    groat_method *method =
        groat_method_read("shop.rules", (groat_text){rules, strlen(rules)}, &reading, &report);
    report_print(report);
    groat_report_free(report);
    assert_non_null(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    groat_order order = {0, 1, NULL};
    for (size_t i = 0; i < 4; i++) {
        char text[40];
        snprintf(text, sizeof text, "$%zu", i + 1);
        groat_rate_value extra = {.rate = "extra", .value = text};
        groat_method *other = groat_method_with_rates(method, &extra, 1, &trouble);
        assert_non_null(other);
        assert_int_equal(groat_price(scratch, other, record, &order), GROAT_PRICED);
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, text, sizeof text);
        assert_string_equal(text, prices[i]);
        groat_method_free(other);
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(large_numbers_do_not_go_with_the_method_that_worked_them_out),
        cmocka_unit_test(a_shop_with_one_of_everything),
        cmocka_unit_test(a_shop_of_large_numbers_and_ranges),
        cmocka_unit_test(shops_with_low_limits),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("interleaved", tests, NULL, NULL);
}
