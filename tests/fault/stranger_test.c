/* What a host may get wrong, slip by slip: each is answered, and none is used. The slips themselves
 * stand in slips.h, one sentence each. */
#include <setjmp.h>
#include <stdalign.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "fault/counting.h"
#include "fault/rules_text.h"

#define PRODUCT                                                                                    \
    "currency USD $\n"                                                                             \
    "product { name text; timber volume as bf; bench time as min; batch count = 1\n"               \
    "    gold mass as g = 2 g to 3 g; fragile flag = no; uses parts optional\n"                    \
    "    made_on date optional; seen money optional }\n"                                           \
    "rate hourly = $24 to $30 per h\n"

/* The price is 4/3 of the cost: of the board below $40, as 2.1 board feet are $21 and 20 minutes at
 * the middle of the range $9. The edited rules are the same but for $20 a board foot. */
static const char shop_rules[] =
    PRODUCT "rate timber_price = $10 per bf\n"
            "cost wood = timber * timber_price\n"
            "pay hands = bench * hourly / batch\n"
            "channel stall { show per_hour as USD per h = take_home / bench; warn \"wide\" when "
            "timber > 1 bf }\n"
            "channel gallery { fee commission = 40% of price }\n"
            "price { aim margin >= 25% }\n"
            "goal \"a kiln\" { needs $400 per month; gives take_home; takes bench; has 40 h per "
            "month }\n"
            "expect \"a board\" { name = \"b\"; timber = 1 bf; bench = 20 min; then price > $1 }\n";
static const char edited_rules[] = PRODUCT "rate timber_price = $20 per bf\n"
                                           "cost wood = timber * timber_price\n"
                                           "pay hands = bench * hourly / batch\n"
                                           "channel stall { }\n"
                                           "channel gallery { fee commission = 40% of price }\n"
                                           "price { aim margin >= 25% }\n";
static const char small_rules[] = "currency USD $\nproduct { weight mass as g }\n"
                                  "cost c = $1 per g * weight\n"
                                  "price { set 3 * cost }\n";

/* Everything that a slip may need; made anew for each. `method`, `record` and `scratch` belong
 * together and price the record; those of the edited and the small rules do not belong to them. */
struct desk {
    groat_method *method, *edited, *small;
    groat_record *record, *edited_record, *small_record;
    groat_scratch *scratch, *edited_scratch, *small_scratch;
    groat_order order;
    groat_trouble trouble;
    groat_report *report;
    groat_outcome outcome;
    groat_range range;
    groat_number_column column;
    int64_t tops[2], prices[2], coins;
    bool fields[16], rates[16];
    char text[64];
    size_t count;
};

static size_t field_of(const struct desk *desk, const char *name)
{
    return groat_method_find_field(desk->method, name);
}

static void fill(groat_record *record, const groat_method *method)
{
    assert_int_equal(set_cell(record, method, "name", "board", NULL), GROAT_OK);
    assert_int_equal(set_cell(record, method, "timber", "2.1 bf", NULL), GROAT_OK);
    assert_int_equal(set_cell(record, method, "bench", "20 min", NULL), GROAT_OK);
}

static int open_desk(void **state)
{
    static struct desk desk;
    desk = (struct desk){.order = {.channel = 0, .quantity = 1},
                         .tops = {1, 2},
                         .trouble = {.message = "as it was"},
                         .text = "as it was"};
    desk.method = read_right(shop_rules);
    desk.edited = read_right(edited_rules);
    desk.small = read_right(small_rules);
    desk.record = groat_record_new(desk.method);
    desk.edited_record = groat_record_new(desk.edited);
    desk.small_record = groat_record_new(desk.small);
    desk.scratch = groat_scratch_new(desk.method);
    desk.edited_scratch = groat_scratch_new(desk.edited);
    desk.small_scratch = groat_scratch_new(desk.small);
    fill(desk.record, desk.method);
    fill(desk.edited_record, desk.edited);
    assert_int_equal(set_cell(desk.small_record, desk.small, "weight", "5 g", NULL), GROAT_OK);
    desk.column = (groat_number_column){.field = 0, .tops = desk.tops, .bottom = 1};
    *state = &desk;
    return 0;
}

static int close_desk(void **state)
{
    struct desk *desk = *state;
    groat_record_free(desk->record);
    groat_record_free(desk->edited_record);
    groat_record_free(desk->small_record);
    groat_scratch_free(desk->scratch);
    groat_scratch_free(desk->edited_scratch);
    groat_scratch_free(desk->small_scratch);
    groat_method_free(desk->method);
    groat_method_free(desk->edited);
    groat_method_free(desk->small);
    return 0;
}

/* ---- how a slip is answered ---- */

/* There is no price, and the reason says so in these words. */
static bool fails(const groat_scratch *scratch, groat_outcome outcome, const char *words)
{
    const char *reason = groat_result_reason(scratch);
    if (outcome == GROAT_FAILED && strstr(reason, words) &&
        groat_result_figure(scratch, GROAT_PRICE).presence == GROAT_MISSING)
        return true;
    print_message("outcome %d, reason \"%s\"\n", (int)outcome, reason);
    return false;
}

/* The value is refused, and the trouble says so in these words. */
static bool refuses(const struct desk *desk, groat_status status, const char *words)
{
    if (status == GROAT_BAD_VALUE && strstr(desk->trouble.message, words))
        return true;
    print_message("status %d, trouble \"%s\"\n", (int)status, desk->trouble.message);
    return false;
}

/* Nothing is made, and the trouble says so in these words. */
static bool makes_none(const struct desk *desk, groat_method *made, const char *words)
{
    bool none = made == NULL;
    groat_method_free(made);
    if (none && strstr(desk->trouble.message, words))
        return true;
    print_message("trouble \"%s\"\n", desk->trouble.message);
    return false;
}

static bool is_missing(groat_value value)
{
    return value.presence == GROAT_MISSING;
}

static bool is_empty(const struct desk *desk, size_t length)
{
    return length == 0 && desk->text[0] == '\0';
}

static bool prices(const struct desk *desk)
{
    return groat_price(desk->scratch, desk->method, desk->record, &desk->order) == GROAT_PRICED;
}

/* ---- slips that take more than one call ---- */

static groat_value price_of(const struct desk *desk)
{
    assert_true(prices(desk));
    return groat_result_figure(desk->scratch, GROAT_PRICE);
}

static groat_outcome price_order(const struct desk *desk, size_t channel, int64_t quantity,
                                 const char *as_of)
{
    groat_order order = {channel, quantity, as_of};
    return groat_price(desk->scratch, desk->method, desk->record, &order);
}

static groat_status price_columns(struct desk *desk, const groat_number_column *columns,
                                  size_t columns_count, size_t count)
{
    return groat_price_columns(desk->small_scratch, desk->small, &desk->order, columns,
                               columns_count, count, desk->prices, NULL, &desk->trouble);
}

static groat_status columns_of(struct desk *desk, groat_number_column column)
{
    return price_columns(desk, &column, 1, 1);
}

static groat_status set_fraction(struct desk *desk, const char *field, int64_t top, int64_t bottom)
{
    return groat_record_set_fraction(desk->record, field_of(desk, field), top, bottom,
                                     &desk->trouble);
}

static groat_method *with_rate(struct desk *desk, groat_rate_value value)
{
    return groat_method_with_rates(desk->method, &value, 1, &desk->trouble);
}

static groat_method *leaned(struct desk *desk, size_t rate, int end)
{
    groat_lean lean = {rate, (groat_end)end};
    return groat_method_leaned(desk->method, &lean, 1, &desk->trouble);
}

/* Whether reading is refused with a report that says so in these words. */
static bool reads_none(struct desk *desk, groat_method *method, const char *words)
{
    bool none = !method && desk->report && report_says(desk->report, words);
    groat_method_free(method);
    groat_report_free(desk->report);
    return none;
}

static bool tidies_none(struct desk *desk, groat_tidied *tidied, const char *words)
{
    bool none = !tidied && desk->report && report_says(desk->report, words);
    groat_tidied_free(tidied);
    groat_report_free(desk->report);
    return none;
}

static bool reads(groat_method *method)
{
    bool read = method != NULL;
    groat_method_free(method);
    return read;
}

/* A loader that says yes and hands out no name, or no text. */
static bool load_halfway(void *context, const char *name, const char *from, const char **full_name,
                         groat_text *text)
{
    (void)name;
    (void)from;
    *full_name = context;
    *text = (groat_text){NULL, 5};
    return true;
}

static groat_method *read_text(struct desk *desk, groat_text rules, const groat_reading *reading)
{
    return groat_method_read("shop.rules", rules, reading, &desk->report);
}

static groat_method *read_shop(struct desk *desk, const groat_reading *reading)
{
    return read_text(desk, (groat_text){shop_rules, strlen(shop_rules)}, reading);
}

static groat_method *read_use(struct desk *desk, char *full_name)
{
    static const char use[] = "use \"more.rules\"\ncurrency USD $\nprice { set $5 }\n";
    groat_reading reading = {.loader = load_halfway, .loader_context = full_name};
    return read_text(desk, (groat_text){use, strlen(use)}, &reading);
}

static groat_explanation *explain(struct desk *desk, groat_scratch *scratch,
                                  const groat_method *method, const groat_record *record,
                                  const groat_order *order)
{
    return groat_explain(scratch, method, record, order, &desk->outcome);
}

/* An explanation of nothing, or none. */
static bool explains_nothing(const struct desk *desk, groat_explanation *explanation)
{
    bool nothing = desk->outcome == GROAT_FAILED && groat_explanation_lines(explanation) == 0 &&
                   !groat_explanation_line(explanation, 0) &&
                   groat_explanation_below(explanation).footing == GROAT_ON_NOTHING;
    groat_explanation_free(explanation);
    return nothing;
}

/* Past the last line of an explanation that has some, and past the last thing that stands against a
 * lower price. */
static bool ends_after_its_last(struct desk *desk)
{
    groat_explanation *explanation =
        explain(desk, desk->scratch, desk->method, desk->record, &desk->order);
    size_t lines = groat_explanation_lines(explanation);
    size_t misses = groat_explanation_below(explanation).misses;
    bool ends = lines > 0 && groat_explanation_line(explanation, lines - 1) &&
                !groat_explanation_line(explanation, lines) &&
                !groat_explanation_line(explanation, SIZE_MAX) &&
                !groat_explanation_miss(explanation, misses) &&
                !groat_explanation_miss(explanation, SIZE_MAX);
    groat_explanation_free(explanation);
    return ends;
}

/* The host reads edited rules and keeps what it had. */
static bool prices_edited_rules_with(const struct desk *desk, groat_scratch *scratch,
                                     const groat_record *record, const char *words)
{
    return fails(scratch, groat_price(scratch, desk->edited, record, &desk->order), words);
}

static bool forgets_the_last_price(struct desk *desk)
{
    assert_true(prices(desk));
    return fails(desk->scratch, price_order(desk, SIZE_MAX, 1, NULL), "channel") &&
           groat_result_notes(desk->scratch) == 0 && !groat_result_note(desk->scratch, 0) &&
           is_missing(groat_result_named(desk->scratch, "wood")) &&
           is_missing(groat_result_show(desk->scratch, 0)) &&
           groat_result_footing(desk->scratch) == GROAT_ON_NOTHING && prices(desk);
}

static bool is_blank_field(groat_field field)
{
    return field.name[0] == '\0' && field.column[0] == '\0' && field.type[0] == '\0' &&
           !field.default_text && !field.required && !field.optional;
}

static bool is_blank_rate(groat_rate rate)
{
    return rate.name[0] == '\0' && rate.text[0] == '\0' && rate.file[0] == '\0' && rate.line == 0;
}

static bool is_blank_column(groat_column column)
{
    return column.name[0] == '\0' && !column.unit;
}

static bool is_blank_goal(groat_goal goal)
{
    return goal.text[0] == '\0' && goal.file[0] == '\0' && goal.line == 0 && !goal.limited;
}

static groat_report *report_of(const struct desk *desk)
{
    return groat_method_check(desk->method, NULL);
}

static bool reports_end(const struct desk *desk)
{
    groat_report *report = report_of(desk);
    bool ends = groat_report_count(report) == 0 && !groat_report_at(report, 0) &&
                !groat_report_at(report, SIZE_MAX);
    groat_report_free(report);
    return ends;
}

/* ---- the sentences ---- */

#define SLIP(sentence, ...)                                                                        \
    static void sentence(void **state)                                                             \
    {                                                                                              \
        struct desk *desk = *state;                                                                \
        assert_true(__VA_ARGS__);                                                                  \
        assert_true(prices(desk)); /* and all goes on as before */                                 \
    }
#include "fault/slips.h"
#undef SLIP

/* ---- memory ---- */

/* malloc, but for addresses that are divisible by 8 and by no more. */
static void *resize_by_eight(void *context, void *block, size_t old_size, size_t new_size)
{
    char *made = NULL;
    (void)context;
    if (new_size > 0) {
        made = malloc(new_size + 16);
        if (!made)
            abort(); /* the machine's own memory is not under test */
        made += 8;
        if (block)
            memcpy(made, block, old_size < new_size ? old_size : new_size);
    }
    if (block)
        free((char *)block - 8);
    return made;
}

static void memory_aligned_to_eight_bytes_is_enough(void **state)
{
    struct desk *desk = *state;
    groat_allocator allocator = {resize_by_eight, NULL};
    groat_method *method = read_shop(desk, &(groat_reading){.allocator = &allocator});
    groat_report_free(desk->report);
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_outcome outcome;
    fill(record, method);
    groat_explanation *explanation = groat_explain(scratch, method, record, &desk->order, &outcome);
    assert_int_equal(outcome, GROAT_PRICED);
    assert_true(groat_explanation_lines(explanation) > 0);
    assert_non_null(strstr(groat_explanation_line(explanation, 0)->amount, "$21"));
    groat_explanation_free(explanation);
    groat_scratch_free(scratch);
    groat_record_free(record);
    groat_method_free(method);
}

int main(void)
{
#define SLIP(sentence, ...) cmocka_unit_test_setup_teardown(sentence, open_desk, close_desk),
    const struct CMUnitTest tests[] = {
#include "fault/slips.h"
        cmocka_unit_test_setup_teardown(memory_aligned_to_eight_bytes_is_enough, open_desk,
                                        close_desk),
    };
    return cmocka_run_group_tests_name("slips of a host", tests, NULL, NULL);
}
