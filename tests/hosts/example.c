/* A host of its own: links libgroat and the C library, nothing else. Reads a method from memory and
 * prices one product on every channel, before and after a raise. */
#include <stdio.h>
#include <string.h>

#include "groat.h"

static const char rules[] = "currency USD $\n"
                            "product { name text; timber volume as bf; bench time as min }\n"
                            "rate timber_price = $7.80 per bf\n"
                            "rate hourly = $26 per h\n"
                            "cost wood = timber * timber_price\n"
                            "pay hand_time = bench * hourly\n"
                            "channel stall { fee card = 2.4% of paid }   # an invented fee\n"
                            "channel gallery { fee commission = 40% of price }\n"
                            "price { aim margin >= 25%; round up to $0.50 }\n";

static groat_text text_of(const char *text)
{
    return (groat_text){text, strlen(text)};
}

static void print_report(const groat_report *report)
{
    for (size_t i = 0; i < groat_report_count(report); i++) {
        char text[2000];
        groat_diagnostic_write(groat_report_at(report, i), text, sizeof text);
        fputs(text, stderr);
    }
}

static void print_prices(const groat_method *method, const groat_record *record, const char *when)
{
    groat_scratch *scratch = groat_scratch_new(method);
    for (size_t channel = 0; scratch && channel < groat_method_channels(method); channel++) {
        groat_order order = {.channel = channel, .quantity = 1};
        char price[64];
        groat_outcome outcome = groat_price(scratch, method, record, &order);
        if (outcome != GROAT_PRICED) {
            printf("%s: %s: %s\n", groat_method_channel(method, channel),
                   groat_outcome_name(outcome), groat_result_reason(scratch));
            continue;
        }
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, price, sizeof price);
        printf("%s %s: %s\n", when, groat_method_channel(method, channel), price);
    }
    groat_scratch_free(scratch);
}

static bool set(groat_record *record, const groat_method *method, const char *field,
                const char *cell)
{
    groat_trouble trouble;
    size_t index = groat_method_find_field(method, field);
    if (groat_record_set(record, index, text_of(cell), NULL, &trouble) == GROAT_OK)
        return true;
    char help[sizeof trouble.help + 16];
    fprintf(stderr, "%s: %s\n", field, trouble.message);
    if (groat_trouble_help(&trouble, help, sizeof help) > 0)
        fprintf(stderr, "Try: %s\n", help);
    return false;
}

int main(void)
{
    groat_report *report;
    groat_method *method = groat_method_read("example", text_of(rules), NULL, &report);
    if (report)
        print_report(report);
    groat_report_free(report);
    if (!method)
        return 1;
    groat_record *record = groat_record_new(method);
    bool ready = record && set(record, method, "name", "Nest box") &&
                 set(record, method, "timber", "1.8 bf") && set(record, method, "bench", "20");
    groat_rate_value raise = {.rate = "hourly", .value = "$30 per h"};
    groat_trouble trouble;
    groat_method *raised = groat_method_with_rates(method, &raise, 1, &trouble);
    if (ready && raised) {
        print_prices(method, record, "now");
        print_prices(raised, record, "raised");
    }
    groat_record_free(record);
    groat_method_free(raised);
    groat_method_free(method);
    return ready && raised ? 0 : 1;
}
