/* Scales and pictures. The goldens in this folder were looked at as pictures; REWRITE=1 writes them
 * anew: look again before they are kept. */
#include <float.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "chart/chart.h"
#include "chart/scale.h"

enum { TEXT_MOST = 1 << 17 };

/* ---- scales ---- */

/* The ticks of a scale, one after the other. */
static const char *ticks_of(struct scale scale)
{
    static char text[1024];
    size_t length = 0;
    text[0] = '\0';
    for (unsigned i = 0; i < scale.count && length < 900; i++) {
        char label[400];
        scale_label(&scale, i, 0, '.', label, sizeof label);
        length += (size_t)snprintf(text + length, sizeof text - length, i ? " %s" : "%s", label);
    }
    return text;
}

static void ticks_are_one_two_or_five_times_a_power_of_ten(void **state)
{
    (void)state;
    assert_string_equal(ticks_of(scale_around(36, 46, 6, 0)), "36 38 40 42 44 46");
    assert_string_equal(ticks_of(scale_around(37, 45, 6, 0)), "36 38 40 42 44 46");
    assert_string_equal(ticks_of(scale_around(0, 100, 5, 0)), "0 50 100");
    assert_string_equal(ticks_of(scale_around(0.12, 0.31, 5, 0)), "0.10 0.15 0.20 0.25 0.30 0.35");
    assert_string_equal(ticks_of(scale_around(-3, 3, 4, 0)), "-4 -2 0 2 4");
    assert_string_equal(ticks_of(scale_within(20, 30, 6)), "20 22 24 26 28 30");
    assert_string_equal(ticks_of(scale_within(19.5, 30.5, 6)), "20 25 30");
    assert_string_equal(ticks_of(scale_within(0.001, 0.002, 3)), "0.0010 0.0015 0.0020");
}

static void ticks_are_no_finer_than_what_they_count(void **state)
{
    (void)state;
    assert_string_equal(ticks_of(scale_around(11.99, 12, 7, 0.01)), "11.99 12.00");
    assert_string_equal(ticks_of(scale_around(11.98, 12, 7, 0.01)), "11.98 11.99 12.00");
    assert_string_equal(ticks_of(scale_around(0.01, 0.01, 7, 0.01)), "0.00 0.01 0.02");
    assert_string_equal(ticks_of(scale_around(400, 402, 7, 1)), "400 401 402");
    assert_string_equal(ticks_of(scale_around(36, 46, 6, 0.01)), "36 38 40 42 44 46");
}

static void a_scale_holds_what_it_was_made_for(void **state)
{
    (void)state;
    static const double ends[][2] = {{0, 1e-12},    {1e299, 1e300},  {-1e300, 1e300},  {5, 5},
                                     {0, 0},        {-7, -7},        {1e15, 1e15 + 2}, {-2, 1e9},
                                     {3, 3.000001}, {1e-300, 2e-300}};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        for (unsigned wanted = 1; wanted < 12; wanted++) {
            struct scale scale = scale_around(ends[i][0], ends[i][1], wanted, 0);
            double slack = scale.step * 1e-6;
            assert_true(scale.low < scale.high && scale.step > 0);
            assert_true(scale.low <= ends[i][0] + slack && scale.high >= ends[i][1] - slack);
            assert_in_range(scale.count, 2, wanted + 2);
            scale = scale_within(ends[i][0], ends[i][1], wanted);
            assert_true(scale.low < scale.high);
            assert_in_range(scale.count, 0, wanted + 1);
        }
    }
}

static void what_cannot_be_drawn_is_no_number(void **state)
{
    (void)state;
    assert_true(scale_holds(0) && scale_holds(-1e300) && scale_holds(DBL_MIN));
    assert_false(scale_holds(NAN) || scale_holds(INFINITY) || scale_holds(-DBL_MAX));
}

static void an_amount_on_a_tick_has_all_its_decimals_or_none(void **state)
{
    (void)state;
    char label[64];
    struct scale halves = scale_around(0, 1, 3, 0), whole = scale_around(0, 10, 3, 0);
    scale_label(&halves, 1, 2, '.', label, sizeof label);
    assert_string_equal(label, "0.50");
    scale_label(&whole, 1, 2, '.', label, sizeof label);
    assert_string_equal(label, "5");
}

/* ---- pictures as texts ---- */

typedef bool drawer(FILE *out);

static char *draw(drawer *drawing)
{
    static char text[TEXT_MOST];
    FILE *out = tmpfile();
    assert_non_null(out);
    assert_true(drawing(out));
    rewind(out);
    text[fread(text, 1, sizeof text - 1, out)] = '\0';
    fclose(out);
    return text;
}

/* In 42 cells a point is 4.1 from the next: $38 holds to 2.5 points, which is cell 10, and so on.
 * $38 up to $22, $40 up to $26, nothing at $27 and $28, then $44. */
static const double stall[] = {38, 38, 38, 40, 40, 40, 40, NAN, NAN, 44, 44};
static const double web[] = {50.5, 51, 52, 53, 54, 55, 56, 57, 58, 59.5, 60};
static const struct chart_series both[] = {{"stall", stall, 0}, {"web_shop", web, 1}};
static const struct chart nest_box = {.title = "Nest box",
                                      .across = {"hourly, $ per h", "$", "", 2, 0},
                                      .up = {"price", "$", "", 2, 0.01},
                                      .from = 20,
                                      .to = 30,
                                      .points = 11,
                                      .series = both,
                                      .series_count = 2,
                                      .mark_label = "now $24 per h",
                                      .mark = 24,
                                      .gap = "no price"};

static bool steps_of(const struct chart *chart, size_t series, bool plain, FILE *out)
{
    struct chart_pen pen = {.width = 50, .plain = plain, .mark = '.'};
    return chart_steps(chart, series, &pen, out);
}

static bool draw_treads(FILE *out)
{
    return steps_of(&nest_box, 0, false, out);
}

static void every_price_has_a_line_and_a_tread_as_long_as_it_holds(void **state)
{
    (void)state;
    assert_string_equal(draw(draw_treads), "$44.00 ┤                                   ━━━━━━━\n"
                                           "$40.00 ┤           ━━━━━━━━━━━━━━━━\n"
                                           "$38.00 ┤━━━━━━━━━━━\n"
                                           "       └┬────────────────────┬───────────────────┬\n"
                                           "        $20                  $25               $30\n"
                                           "                        ▲ now $24 per h\n"
                                           "                                   hourly, $ per h\n");
}

static bool draw_plain(FILE *out)
{
    return steps_of(&nest_box, 0, true, out);
}

static void a_plain_terminal_gets_ascii_alone(void **state)
{
    (void)state;
    char *text = draw(draw_plain);
    for (char *at = text; *at; at++)
        assert_in_range((unsigned char)*at, '\n', 0x7E);
    assert_non_null(strstr(text, "$40.00 |           ================\n"));
    assert_non_null(strstr(text, "++--------------------+-------------------+\n"));
}

static double many[101];

static bool draw_many(FILE *out)
{
    struct chart_series series = {"post", many, 0};
    struct chart chart = nest_box;
    chart.series = &series;
    chart.points = 101;
    for (size_t i = 0; i < 101; i++)
        many[i] = 10 + (double)i / 2;
    struct chart_pen pen = {.width = 50, .mark = ','};
    chart.mark_label = NULL;
    chart.from = 0.5;
    chart.to = 1.5;
    return chart_steps(&chart, 0, &pen, out);
}

static void many_prices_share_a_scale_of_round_numbers(void **state)
{
    (void)state;
    char *text = draw(draw_many);
    assert_int_equal(strncmp(text, "$60 ┤", strlen("$60 ┤")), 0);
    assert_non_null(strstr(text, "\n$10 ┤━━\n"));
    assert_non_null(strstr(text, "$0,50"));
}

static bool draw_one_point(FILE *out)
{
    struct chart chart = nest_box;
    chart.points = 1;
    chart.to = 20;
    return steps_of(&chart, 0, false, out);
}

static bool draw_gaps_alone(FILE *out)
{
    static const double none[] = {NAN, NAN, INFINITY};
    struct chart_series series = {"", none, 0};
    struct chart chart = nest_box;
    chart.points = 3;
    chart.series = &series;
    return steps_of(&chart, 0, false, out);
}

static void one_point_and_none_are_drawn_too(void **state)
{
    (void)state;
    assert_non_null(strstr(draw(draw_one_point), "$38.00 ┤━━━━━━━━━━━━━━━━"));
    assert_null(strstr(draw(draw_gaps_alone), "━"));
}

static void a_strip_is_low_where_the_number_is(void **state)
{
    (void)state;
    char text[256];
    static const double equal[] = {5, 5, 5}, rising[] = {0, 1, 2, 3, 4, 5, 6, 7},
                        huge[] = {-1e300, 1e300}, gap[] = {1, NAN, 2};
    assert_int_equal(chart_strip(rising, 8, 8, false, text, sizeof text), 24);
    assert_string_equal(text, "▁▂▃▄▅▆▇█");
    chart_strip(rising, 8, 8, true, text, sizeof text);
    assert_string_equal(text, "_.-~=+*#");
    chart_strip(equal, 3, 5, false, text, sizeof text);
    assert_string_equal(text, "▁▁▁▁▁");
    chart_strip(huge, 2, 4, false, text, sizeof text);
    assert_string_equal(text, "▁▁██");
    chart_strip(gap, 3, 3, true, text, sizeof text);
    assert_string_equal(text, "_ #");
    chart_strip(gap, 0, 3, true, text, sizeof text);
    assert_string_equal(text, "");
    chart_strip(rising, 8, 8, false, text, 10); /* no half of a character */
    assert_string_equal(text, "▁▂▃");
}

static void a_bar_is_as_long_as_its_share(void **state)
{
    (void)state;
    char text[256];
    chart_bar(1, 4, false, text, sizeof text);
    assert_string_equal(text, "████");
    chart_bar(0.5, 5, false, text, sizeof text);
    assert_string_equal(text, "██▌");
    chart_bar(-0.5, 4, false, text, sizeof text);
    assert_string_equal(text, "░░");
    chart_bar(0.5, 4, true, text, sizeof text);
    assert_string_equal(text, "##");
    chart_bar(0, 4, false, text, sizeof text);
    assert_string_equal(text, "");
    chart_bar(1e-9, 4, false, text, sizeof text);
    assert_string_equal(text, "▏");
    chart_bar(NAN, 4, false, text, sizeof text);
    assert_string_equal(text, "");
    chart_bar(7, 2, true, text, sizeof text);
    assert_string_equal(text, "##");
}

/* ---- pictures as SVG ---- */

static void compare_with_golden(const char *name, drawer *drawing)
{
    static char wanted[TEXT_MOST];
    char *text = draw(drawing);
    FILE *file = fopen(name, getenv("REWRITE") ? "wb" : "rb");
    if (!file)
        fail_msg("there is no %s", name);
    if (getenv("REWRITE"))
        fputs(text, file);
    else
        wanted[fread(wanted, 1, sizeof wanted - 1, file)] = '\0';
    fclose(file);
    if (!getenv("REWRITE"))
        assert_string_equal(text, wanted);
}

static bool draw_alone(FILE *out)
{
    return chart_svg(NULL, &nest_box, 1, '.', out);
}

static bool draw_panels(FILE *out)
{
    struct chart charts[] = {nest_box, nest_box, nest_box};
    charts[1].title = "<script>alert('&\"')</script>\x01\x1b[31m\xff\xc2\x9b";
    charts[1].series_count = 1;
    charts[2].points = 0;
    charts[2].series_count = 0;
    return chart_svg("Prices & <steps>", charts, 3, ',', out);
}

static bool draw_bars(FILE *out)
{
    static const struct chart_row rows[] = {
        {"hourly", "+0.43%", 0.43},
        {"batch & <co>", "-0.2%", -0.2},
        {"carton", "0%", 0},
        {"a name that is longer than anyone would want", "", NAN}};
    return chart_svg_bars("What a rate moves", "mean of all rows", "to the left: a fall", rows, 4,
                          out);
}

static bool draw_nothing(FILE *out)
{
    return chart_svg(NULL, NULL, 0, '.', out) && chart_svg_bars("", "", "", NULL, 0, out);
}

static const double early[] = {38, 38, 38, 40, 40, NAN, NAN, NAN, NAN, NAN, NAN};
static const double none[] = {NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};

static bool draw_early(FILE *out)
{
    static const struct chart_series lines[] = {{"stall", early, 0}, {"post", none, 1}};
    struct chart chart = nest_box;
    chart.series = lines;
    return chart_svg(NULL, &chart, 1, '.', out);
}

static bool draw_equal(FILE *out)
{
    static const double equal[] = {38, 38, 38, 38, 38, 38, 38, 38, 38, 38, 38};
    static const struct chart_series lines[] = {{"stall", equal, 0}, {"post", equal, 1}};
    struct chart charts[] = {nest_box, nest_box};
    charts[0].series = charts[1].series = lines;
    charts[1].series_count = 1;
    return chart_svg("Nothing moves", charts, 2, '.', out);
}

static void svg_is_as_it_was_looked_at(void **state)
{
    (void)state;
    compare_with_golden("tests/chart/alone.svg", draw_alone);
    compare_with_golden("tests/chart/panels.svg", draw_panels);
    compare_with_golden("tests/chart/bars.svg", draw_bars);
    compare_with_golden("tests/chart/early.svg", draw_early);
    compare_with_golden("tests/chart/equal.svg", draw_equal);
}

/* Steps go level and upright, never aslant; a gap lifts the pen. */
static void lines_are_drawn_as_steps(void **state)
{
    (void)state;
    char *text = draw(draw_alone);
    char *path = strstr(text, "<path d=\"M");
    assert_non_null(path);
    char *end = strchr(path + 9, '"');
    unsigned moves = 0, downs = 0;
    for (char *at = path + 9; at < end; at++) {
        assert_non_null(strchr("MHV0123456789. ", *at));
        moves += *at == 'M';
        downs += *at == 'V';
    }
    assert_int_equal(moves, 2); /* before the gap and after it */
    assert_int_equal(downs, 1); /* from $38 to $40 */
}

static size_t count_of(const char *text, const char *part)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, part)); at += strlen(part))
        count++;
    return count;
}

static bool draw_early_beside_another(FILE *out)
{
    static const struct chart_series lines[] = {{"stall", early, 0}, {"web_shop", web, 1}};
    struct chart chart = nest_box;
    chart.beyond = "none above";
    chart.series = lines;
    return chart_svg(NULL, &chart, 1, '.', out);
}

static void a_stretch_without_a_price_is_said_and_has_no_mark(void **state)
{
    (void)state;
    /* Nothing from $25 on: one hatched stretch; the stall has a round mark on each of its two treads. */
    char *text = draw(draw_early);
    assert_int_equal(count_of(text, "class=\"gap\""), 1);
    /* It is said in the stretch, and under the names of both, each with its mark at the right. */
    assert_int_equal(count_of(text, ">no price<"), 3);
    assert_int_equal(count_of(text, ">stall<"), 1);
    assert_int_equal(count_of(text, ">post<"), 1);
    assert_int_equal(count_of(text, "<circle"), 2 + 1);
    assert_int_equal(count_of(text, "width=\"8.00\""), 1); /* the square of the post */
    /* Where another goes on nothing is hatched, and a line under the name says it. */
    text = draw(draw_early_beside_another);
    assert_int_equal(count_of(text, "class=\"gap\""), 0);
    assert_int_equal(count_of(text, ">stall<"), 1);
    assert_int_equal(count_of(text, ">none above $24<"), 1);
    assert_int_equal(count_of(text, ">web_shop<"), 1);
    assert_int_equal(count_of(text, "<circle"), 2 + 1);
}

static void hostile_texts_stay_texts(void **state)
{
    (void)state;
    char *text = draw(draw_panels);
    assert_null(strstr(text, "<script"));
    assert_non_null(strstr(text, "&lt;script&gt;alert('&amp;&quot;')&lt;/script&gt;"));
    for (char *at = text; *at; at++)
        assert_true((unsigned char)*at >= 0x20 || *at == '\n');
    assert_null(strstr(text, "\xff"));
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "inf"));
}

static void nothing_is_a_picture_too(void **state)
{
    (void)state;
    assert_non_null(strstr(draw(draw_nothing), "there is nothing to draw"));
}

static bool draw_extremes(FILE *out)
{
    static const double wild[] = {1e300, -1e300, 1e-300, DBL_MAX, 0};
    struct chart_series series = {"wild", wild, 0};
    struct chart chart = nest_box;
    chart.series = &series;
    chart.series_count = 1;
    chart.points = 5;
    return chart_svg(NULL, &chart, 1, '.', out);
}

static void the_wildest_numbers_stay_within_the_picture(void **state)
{
    (void)state;
    char *text = draw(draw_extremes);
    assert_null(strstr(text, "nan"));
    assert_null(strstr(text, "inf"));
    char *path = strstr(text, "<path d=\"M");
    assert_non_null(path);
    assert_true(strcspn(path, ">") < 300);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ticks_are_one_two_or_five_times_a_power_of_ten),
        cmocka_unit_test(ticks_are_no_finer_than_what_they_count),
        cmocka_unit_test(a_scale_holds_what_it_was_made_for),
        cmocka_unit_test(what_cannot_be_drawn_is_no_number),
        cmocka_unit_test(an_amount_on_a_tick_has_all_its_decimals_or_none),
        cmocka_unit_test(every_price_has_a_line_and_a_tread_as_long_as_it_holds),
        cmocka_unit_test(a_plain_terminal_gets_ascii_alone),
        cmocka_unit_test(many_prices_share_a_scale_of_round_numbers),
        cmocka_unit_test(one_point_and_none_are_drawn_too),
        cmocka_unit_test(a_strip_is_low_where_the_number_is),
        cmocka_unit_test(a_bar_is_as_long_as_its_share),
        cmocka_unit_test(svg_is_as_it_was_looked_at),
        cmocka_unit_test(lines_are_drawn_as_steps),
        cmocka_unit_test(a_stretch_without_a_price_is_said_and_has_no_mark),
        cmocka_unit_test(hostile_texts_stay_texts),
        cmocka_unit_test(nothing_is_a_picture_too),
        cmocka_unit_test(the_wildest_numbers_stay_within_the_picture),
    };
    return cmocka_run_group_tests_name("chart", tests, NULL, NULL);
}
