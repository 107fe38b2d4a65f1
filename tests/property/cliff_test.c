/* The notes of a stretch just above a price at which less would be kept, against a blind loop.
 *
 * Such a stretch is a longest run of prices every one of which keeps less than the price found. It
 * has to be noted where more is lost in it, within a tenth of the price, than rounding can take. */
#include "property/search_pricing.h"

enum { RECORDS = 2500, REACH_PART = 10 };

struct stretch_of_less {
    bool there, endless;
    int64_t first, last;
};

static unsigned long long noted, endless, bare;

static int64_t kept_at(const struct shop *shop, const struct item *item, int64_t price)
{
    struct sale sale = sale_at(shop, item, price);
    return sale.keep;
}

/* The first price within reach at which surely less is kept: by a coin more than every rounded line
 * could take alone. 0 where there is none. */
static int64_t first_fall(const struct shop *shop, const struct item *item, int64_t price)
{
    int64_t here = kept_at(shop, item, price), reach = price / REACH_PART;
    for (int64_t p = price + 1; p <= price + (reach > 0 ? reach : 1); p++)
        if (kept_at(shop, item, p) < here - shop->twice->rounded_lines)
            return p;
    return 0;
}

/* The longest run around a price of those that keep less. */
static struct stretch_of_less loop_stretch(const struct shop *shop, const struct item *item,
                                           int64_t price, int64_t within)
{
    int64_t here = kept_at(shop, item, price);
    struct stretch_of_less found = {.there = true, .first = within, .last = within - 1};
    while (found.first - 1 > price && kept_at(shop, item, found.first - 1) < here)
        found.first--;
    while (found.last < COINS_END && kept_at(shop, item, found.last + 1) < here)
        found.last++;
    found.endless = found.last == COINS_END;
    return found;
}

/* ---- notes ---- */

/* The next amount of a text, in coins; the text goes on after it. */
static int64_t read_amount(const struct shop *shop, const char **text)
{
    int64_t coins = 0;
    int places = -1;
    *text += strcspn(*text, "0123456789");
    for (; (**text >= '0' && **text <= '9') || **text == '.'; ++*text) {
        if (**text == '.') {
            places = 0;
            continue;
        }
        coins = coins * 10 + (**text - '0');
        places += places >= 0;
    }
    assert_int_equal(places < 0 ? 0 : places, shop->twice->decimals);
    return coins;
}

static struct stretch_of_less read_note(const struct shop *shop, int64_t price)
{
    struct stretch_of_less found = {0};
    for (size_t i = 0; i < groat_result_notes(shop->scratch); i++) {
        const char *text = groat_result_note(shop->scratch, i);
        if (!strstr(text, "you would keep less than at"))
            continue;
        found.there = true;
        found.endless = strncmp(text, "from", 4) == 0;
        found.first = read_amount(shop, &text);
        if (!found.endless)
            found.last = read_amount(shop, &text);
        assert_int_equal(read_amount(shop, &text), price);
    }
    return found;
}

static void fail_note(const struct shop *shop, const struct item *item, int64_t price,
                      const struct stretch_of_less *note, const struct stretch_of_less *loop)
{
    char what[200];
    snprintf(what, sizeof what, "noted %d: %lld to %lld%s; the loop %d: %lld to %lld%s",
             note->there, (long long)note->first, (long long)note->last,
             note->endless ? " endless" : "", loop->there, (long long)loop->first,
             (long long)loop->last, loop->endless ? " endless" : "");
    fail_item(shop, item, price, what);
}

/* ---- the tests ---- */

static void check_stretch(struct shop *shop, const struct item *item, int64_t price)
{
    struct stretch_of_less note = read_note(shop, price), none = {0};
    int64_t fall = first_fall(shop, item, price);
    noted += note.there;
    endless += note.endless;
    bare += !note.there;
    if (!note.there && !fall)
        return;
    struct stretch_of_less loop = loop_stretch(shop, item, price, fall ? fall : note.first);
    if (loop.last < loop.first)
        loop = none;
    if (note.there != loop.there || note.first != loop.first || note.endless != loop.endless ||
        (!note.endless && note.last != loop.last))
        fail_note(shop, item, price, &note, &loop);
}

/* A floor up to a tenth below a step, now and then, so that there is something to note. */
static void choose_floor(const struct method_twice *twice, struct item *item)
{
    int64_t step = twice->steps[random_below(3)];
    if (step && random_below(2))
        item->floor = random_from(step - step / REACH_PART, step);
}

static void on_random_records(bool jumps,
                              void check(struct shop *shop, const struct item *item, int64_t price))
{
    for (size_t i = 0; i < METHODS; i++)
        for (int k = 0; (methods[i].steps[0] != 0) == jumps && k < RECORDS; k++) {
            struct item item = random_item(&shops[i]);
            item.dearer = random_below(4) == 0 ? DEARER : 0;
            choose_floor(&methods[i], &item);
            int64_t price = price_item(&shops[i], &item);
            if (priced)
                check(&shops[i], &item, price);
        }
}

static void a_stretch_of_less_is_noted_from_its_first_price_to_its_last_and_only_then(void **state)
{
    (void)state;
    on_random_records(true, check_stretch);
    assert_true(noted > 300 && bare > 300);
}

static void check_none(struct shop *shop, const struct item *item, int64_t price)
{
    struct stretch_of_less note = read_note(shop, price);
    if (note.there || first_fall(shop, item, price))
        fail_item(shop, item, price, "less is kept above, where no fee jumps");
}

static void
where_no_fee_jumps_nothing_is_noted_and_rounding_alone_takes_the_difference(void **state)
{
    (void)state;
    on_random_records(false, check_none);
}

/* ---- single notes ---- */

/* The note on a price that is set, under a fee, or an empty text. */
static const char *note_of(const char *fee, const char *price)
{
    static char note[300];
    static char rules[32768];
    groat_report *report;
    groat_trouble trouble;
    int length =
        snprintf(rules, sizeof rules,
                 "currency USD $\nproduct { asked money }\n%s\nprice { set asked }\n", fee);
    assert_true(length > 0 && (size_t)length < sizeof rules);
    groat_method *method =
        groat_method_read("note", (groat_text){rules, strlen(rules)}, NULL, &report);
    assert_non_null(method);
    groat_report_free(report);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_record *record = groat_record_new(method);
    assert_int_equal(
        groat_record_set(record, 0, (groat_text){price, strlen(price)}, NULL, &trouble), GROAT_OK);
    assert_int_equal(groat_price(scratch, method, record, &(groat_order){0, 1, NULL}),
                     GROAT_PRICED);
    assert_true(groat_result_notes(scratch) <= 1);
    snprintf(note, sizeof note, "%s",
             groat_result_notes(scratch) ? groat_result_note(scratch, 0) : "");
    groat_record_free(record);
    groat_scratch_free(scratch);
    groat_method_free(method);
    return note;
}

static void a_stretch_begins_at_the_very_price_where_the_fee_jumps(void **state)
{
    static const char step[] = "fee step = if price >= $40 then $3 else $1";
    (void)state;
    assert_string_equal(note_of(step, "$39"),
                        "between $40.00 and $40.99, you would keep less than at $39.00");
    assert_string_equal(note_of(step, "$38.02"),
                        "between $40.00 and $40.01, you would keep less than at $38.02");
    assert_string_equal(note_of(step, "$38.01"), ""); /* a cent is what rounding may take */
    assert_string_equal(note_of(step, "$40"), "");
}

static void a_jump_at_the_last_price_within_reach_is_noted_and_one_beyond_it_is_not(void **state)
{
    static const char step[] = "fee step = if price >= $44 then $9 else $1";
    (void)state;
    assert_string_equal(note_of(step, "$40"),
                        "between $44.00 and $47.99, you would keep less than at $40.00");
    assert_string_equal(note_of(step, "$39.99"), "");
}

static void a_single_price_that_costs_more_is_a_stretch_of_its_own(void **state)
{
    (void)state;
    assert_string_equal(note_of("fee odd = if price = $50 then $8 else 2% of price", "$49.50"),
                        "between $50.00 and $50.00, you would keep less than at $49.50");
}

static void fees_that_take_more_than_the_price_brings_leave_less_for_ever(void **state)
{
    (void)state;
    assert_string_equal(note_of("fee cut = if price >= $50 then 110% of price else $1", "$46"),
                        "from $50.00 on, you would keep less than at $46.00");
}

/* At $46 nothing is kept, or $45.40. From $50 on it is $1 below nothing, or nothing, at every price:
 * no slope is left, though the shares that make it up may be rounded to one. */
static void fees_that_take_all_that_the_price_brings_leave_less_for_ever(void **state)
{
    (void)state;
    assert_string_equal(note_of("fee cut = if price >= $50 then 60% of price + 40% of price + $1 "
                                "else price",
                                "$46"),
                        "from $50.00 on, you would keep less than at $46.00");
    assert_string_equal(note_of("fee cut = if price >= $50 then price * 0.3 + price * 0.7 else "
                                "$0.60",
                                "$46"),
                        "from $50.00 on, you would keep less than at $46.00");
}

/* $45 are kept at $46. From $50 on a millionth of the price is kept: $44.99 of $44,995,000.00, where
 * the fee is rounded from $44,994,955.005 up, and $45.00 of one cent more. */
static void a_stretch_that_ends_far_away_ends_where_as_much_is_kept(void **state)
{
    (void)state;
    assert_string_equal(note_of("fee cut = if price >= $50 then 99.9999% of price else $1", "$46"),
                        "between $50.00 and $44995000.00, you would keep less than at $46.00");
}

/* A table that takes more with each of its rows, until it takes nothing. */
static void a_stretch_over_more_rows_than_are_looked_at_is_never_called_endless(void **state)
{
    static char fee[16384];
    size_t length = 0;
    (void)state;
    length += (size_t)snprintf(fee, sizeof fee,
                               "fee steps = climbing\ntable climbing by price {\n"
                               "    below $100 : $0\n");
    for (int row = 1; row <= 300; row++)
        length += (size_t)snprintf(fee + length, sizeof fee - length, "    below $%d : $%d\n",
                                   100 + row, 10 + row);
    snprintf(fee + length, sizeof fee - length, "    otherwise : $0\n}\n");
    const char *note = note_of(fee, "$99");
    long long last_dollar, last_cent;
    assert_int_equal(sscanf(note, "between $100.00 and $%lld.%lld you would keep less than at",
                            &last_dollar, &last_cent),
                     2);
    assert_true(last_dollar >= 150 && last_dollar < 400);
}

static int close_and_count(void **state)
{
    printf("%llu prices with a note, %llu of them endless, %llu without one\n", noted, endless,
           bare);
    return close_shops(state);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stretch_of_less_is_noted_from_its_first_price_to_its_last_and_only_then),
        cmocka_unit_test(
            where_no_fee_jumps_nothing_is_noted_and_rounding_alone_takes_the_difference),
        cmocka_unit_test(a_stretch_begins_at_the_very_price_where_the_fee_jumps),
        cmocka_unit_test(a_jump_at_the_last_price_within_reach_is_noted_and_one_beyond_it_is_not),
        cmocka_unit_test(a_single_price_that_costs_more_is_a_stretch_of_its_own),
        cmocka_unit_test(fees_that_take_more_than_the_price_brings_leave_less_for_ever),
        cmocka_unit_test(fees_that_take_all_that_the_price_brings_leave_less_for_ever),
        cmocka_unit_test(a_stretch_that_ends_far_away_ends_where_as_much_is_kept),
        cmocka_unit_test(a_stretch_over_more_rows_than_are_looked_at_is_never_called_endless),
    };
    choose_seed(argc, argv);
    return cmocka_run_group_tests_name("cliffs", tests, open_shops, close_and_count);
}
