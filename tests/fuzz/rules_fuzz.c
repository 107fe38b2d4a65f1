/* Feeds arbitrary text to the reader of rules; what is read is checked, and one record made up for it
 * is priced on every channel. Beyond not crashing: a report has an error exactly when there is no
 * method, every text is UTF-8 with its place in the rules, and an outcome has its reason. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "groat.h"
#include "text/utf8.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(bool holds)
{
    if (!holds)
        abort();
}

static void demand_text(const char *text)
{
    demand(text != NULL && text_bad_byte(text, strlen(text)) == strlen(text));
}

/* What a rules file may cost while fuzzing: enough for all there is, and soon over. */
static groat_limits limits(void)
{
    groat_limits limits = groat_limits_default();
    limits.source_bytes = 1 << 16;
    limits.definitions = 300;
    limits.table_rows = 300;
    limits.steps = 50000;
    limits.trials = 500;
    limits.bends = 500;
    limits.memory_bytes = (size_t)64 << 20;
    return limits;
}

/* A `use` of "self.rules" gives the same text again, which goes in a circle; of "used.rules" a
 * little one; anything else is not there. */
static bool load(void *context, const char *name, const char *from, const char **full_name,
                 groat_text *text)
{
    static const char used[] = "currency USD $\nrate used = 2\n";
    demand_text(name);
    demand_text(from);
    *full_name = strcmp(name, "self.rules") == 0 ? "fuzz.rules" : "used.rules";
    *text = strcmp(name, "self.rules") == 0 ? *(groat_text *)context
                                            : (groat_text){used, sizeof used - 1};
    return strcmp(name, "self.rules") == 0 || strcmp(name, "used.rules") == 0;
}

static void look_at_report(const groat_report *report)
{
    size_t errors = 0;
    for (size_t i = 0; i < groat_report_count(report); i++) {
        const groat_diagnostic *diagnostic = groat_report_at(report, i);
        errors += diagnostic->severity == GROAT_ERROR;
        demand(diagnostic->line >= 1 && diagnostic->column >= 1 && diagnostic->span >= 1);
        demand_text(diagnostic->file);
        demand_text(diagnostic->message);
        demand(diagnostic->message[0] != '\0');
        if (diagnostic->help)
            demand_text(diagnostic->help);
        char small[40], large[1 << 14];
        size_t length = groat_diagnostic_write(diagnostic, large, sizeof large);
        demand(groat_diagnostic_write(diagnostic, small, sizeof small) == length);
        demand(groat_diagnostic_write(diagnostic, NULL, 0) == length);
        demand(strlen(small) == (length < sizeof small ? length : sizeof small - 1));
        demand(length >= sizeof large || large[length - 1] == '\n');
    }
    demand(errors == groat_report_errors(report));
}

/* ---- a record ---- */

static void set_fields(const groat_method *method, groat_record *record)
{
    static const char *const cells[] = {"1",  "3/4 in", "250 g", "25 min", "12%",  "2027-01-31",
                                        "$3", "yes",    "red",   "2 l",    "3 ft", "2.5"};
    enum { CELLS = sizeof cells / sizeof *cells };
    groat_trouble trouble;
    for (size_t i = 0; i < groat_method_fields(method); i++) {
        groat_field field = groat_method_field(method, i);
        demand_text(field.name);
        demand_text(field.column);
        demand(groat_method_find_field(method, field.name) != SIZE_MAX);
        bool set = field.optional && i % 2;
        for (size_t k = 0; k < CELLS && !set; k++) {
            const char *cell = cells[(i + k) % CELLS];
            groat_status status =
                groat_record_set(record, i, (groat_text){cell, strlen(cell)}, NULL, &trouble);
            set = status == GROAT_OK;
            if (status == GROAT_BAD_VALUE)
                demand_text(trouble.message);
        }
    }
}

static void look_at_value(groat_value value)
{
    char text[700];
    groat_value_top(value, text, sizeof text);
    groat_value_bottom(value, text, sizeof text);
    groat_value_places(value, 4, text, sizeof text);
    groat_value_short(value, 4, text, sizeof text);
    groat_value_write(value, 4, text, sizeof text);
}

static void look_at_result(groat_scratch *scratch, const groat_method *method,
                           groat_outcome outcome)
{
    const char *reason = groat_result_reason(scratch);
    demand_text(reason);
    demand((outcome == GROAT_FAILED || outcome == GROAT_REFUSED) == (reason[0] != '\0') ||
           outcome == GROAT_REFUSED);
    groat_value price = groat_result_figure(scratch, GROAT_PRICE);
    if (outcome == GROAT_PRICED)
        demand(price.presence == GROAT_THERE);
    for (int figure = GROAT_LIST; figure <= GROAT_TAKE_HOME; figure++)
        look_at_value(groat_result_figure(scratch, (groat_figure)figure));
    for (size_t i = 0; i < groat_method_shows(method); i++)
        look_at_value(groat_result_show(scratch, i));
    for (size_t i = 0; i < groat_result_notes(scratch); i++)
        demand_text(groat_result_note(scratch, i));
    for (size_t i = 0; i < groat_method_rates(method); i++)
        look_at_value(groat_result_named(scratch, groat_method_rate(method, i).name));
}

static void explain(groat_scratch *scratch, const groat_method *method, const groat_record *record,
                    const groat_order *order)
{
    groat_outcome outcome;
    groat_explanation *explanation = groat_explain(scratch, method, record, order, &outcome);
    for (size_t i = 0; explanation && i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        demand_text(line->name);
        demand_text(line->amount);
        if (line->written)
            demand_text(line->written);
        if (line->worked)
            demand_text(line->worked);
    }
    groat_explanation_free(explanation);
    groat_explanation_free(groat_explain_name(scratch, method, record, order, "profit", &outcome));
}

static void price_everywhere(const groat_method *method)
{
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    if (record && scratch) {
        set_fields(method, record);
        for (size_t i = 0; i < groat_method_channels(method) && i < 6; i++) {
            groat_order order = {
                .channel = i, .quantity = 1 + (int64_t)i * 7, .as_of = i % 2 ? NULL : "2027-01-31"};
            look_at_result(scratch, method, groat_price(scratch, method, record, &order));
            explain(scratch, method, record, &order);
        }
    }
    groat_record_free(record);
    groat_scratch_free(scratch);
}

/* The same with its first rate replaced by what it is already. */
static void price_with_rates(const groat_method *method)
{
    if (groat_method_rates(method) == 0)
        return;
    groat_rate rate = groat_method_rate(method, 0);
    groat_rate_value value = {.rate = rate.name, .value = rate.text};
    groat_trouble trouble;
    groat_method *other = groat_method_with_rates(method, &value, 1, &trouble);
    if (other)
        price_everywhere(other);
    else
        demand_text(trouble.message);
    groat_method_free(other);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    groat_limits most = limits();
    groat_text text = {(const char *)data, size};
    groat_reading reading = {.limits = &most, .loader = load, .loader_context = &text};
    groat_report *report;
    groat_method *method = groat_method_read("fuzz.rules", text, &reading, &report);
    demand(report != NULL);
    look_at_report(report);
    demand((method == NULL) == (groat_report_errors(report) > 0));
    groat_report_free(report);
    if (!method)
        return 0;
    size_t count;
    report = groat_method_check(method, &count);
    if (report)
        look_at_report(report);
    groat_report_free(report);
    price_everywhere(method);
    price_with_rates(method);
    groat_method_free(method);
    return 0;
}
