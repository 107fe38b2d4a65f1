/* Feeds arbitrary text to the reader of cells, as a value of every type of field and with both
 * decimal signs. Beyond not crashing: a cell that is refused has a message and leaves the record as
 * it was, and one that is taken is taken again the same. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "groat.h"
#include "text/utf8.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char rules[] =
    "currency USD $\n"
    "unit sheet\n"
    "materials {\n"
    "    screws $9.60 per 200\n"
    "    oil    $36 per 5 l weighs 0.915 kg per l\n"
    "    flour  $2 per kg weighs 0.5 kg per l\n"
    "    twine  $7.50 per 250 m\n"
    "}\n"
    "product {\n"
    "    a number optional\n"
    "    b count optional\n"
    "    c percent optional\n"
    "    d money optional\n"
    "    e time as min optional\n"
    "    f length optional\n"
    "    g area as sqft optional\n"
    "    h volume as bf optional\n"
    "    i mass as g optional\n"
    "    j energy optional\n"
    "    k sheet optional\n"
    "    l money per time optional\n"
    "    m text optional\n"
    "    n flag optional\n"
    "    o date optional\n"
    "    p parts optional\n"
    "}\n"
    "price { set $1 }\n"
    "show a\nshow b\nshow c\nshow d\nshow e_ as min = e\nshow f_ as mm = f\n"
    "show g_ as sqft = g\nshow h_ as bf = h\nshow i_ as g = i\nshow j_ as kWh = j\n"
    "show k_ as sheet = k\nshow l_ as USD per h = l\nshow m\nshow n\nshow o\n"
    "show p_ = worth of p\n";

static void demand(bool holds)
{
    if (!holds)
        abort();
}

static void demand_text(const char *text, size_t room)
{
    const char *end = memchr(text, '\0', room);
    demand(end != NULL && text_bad_byte(text, (size_t)(end - text)) == (size_t)(end - text));
}

/* All that the record's shows say, one after the other. */
static size_t write_shows(const groat_method *method, const groat_record *record,
                          groat_scratch *scratch, char *buffer, size_t size)
{
    groat_order order = {.channel = 0, .quantity = 1};
    size_t length = 0;
    groat_outcome outcome = groat_price(scratch, method, record, &order);
    demand(outcome == GROAT_PRICED || groat_result_reason(scratch)[0] != '\0');
    for (size_t i = 0; i < groat_method_shows(method) && length < size; i++) {
        groat_value value = groat_result_show(scratch, i);
        length += groat_value_top(value, buffer + length, size - length);
        if (length < size)
            length += groat_value_bottom(value, buffer + length, size - length);
        if (length < size)
            length += groat_value_write(value, 10, buffer + length, size - length);
    }
    return length;
}

static void set_once(const groat_method *method, groat_record *record, groat_scratch *scratch,
                     size_t field, groat_text cell, bool comma)
{
    static char first[1 << 18], second[1 << 18];
    groat_cells cells = {.decimal_comma = comma};
    groat_trouble trouble;
    memset(&trouble, 'x', sizeof trouble);
    groat_status status = groat_record_set(record, field, cell, &cells, &trouble);
    demand(status != GROAT_NO_MEMORY);
    if (status == GROAT_BAD_VALUE) {
        demand_text(trouble.message, sizeof trouble.message);
        demand_text(trouble.help, sizeof trouble.help);
        demand(trouble.message[0] != '\0');
        return;
    }
    size_t length = write_shows(method, record, scratch, first, sizeof first);
    demand(groat_record_set(record, field, cell, &cells, NULL) == GROAT_OK);
    demand(write_shows(method, record, scratch, second, sizeof second) == length);
    demand(length >= sizeof first || memcmp(first, second, length) == 0);
    /* What is refused changes nothing. */
    groat_record_set(record, field, (groat_text){"\xFF", 1}, &cells, NULL);
    demand(write_shows(method, record, scratch, second, sizeof second) == length);
    demand(length >= sizeof first || memcmp(first, second, length) == 0);
}

static void try_as_rate(const groat_method *method, const uint8_t *data, size_t size)
{
    char value[300];
    if (size >= sizeof value)
        return;
    memcpy(value, data, size);
    value[size] = '\0';
    groat_rate_value rate = {.rate = "oil", .value = value};
    groat_trouble trouble;
    groat_method *other = groat_method_with_rates(method, &rate, 1, &trouble);
    if (!other)
        demand_text(trouble.message, sizeof trouble.message);
    groat_method_free(other);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static groat_method *method;
    static groat_record *record;
    static groat_scratch *scratch;
    if (!method) {
        groat_report *report;
        method =
            groat_method_read("cells.rules", (groat_text){rules, sizeof rules - 1}, NULL, &report);
        groat_report_free(report);
        demand(method != NULL);
        record = groat_record_new(method);
        scratch = groat_scratch_new(method);
    }
    for (size_t field = 0; field < groat_method_fields(method); field++) {
        for (int comma = 0; comma < 2; comma++) {
            groat_record_clear(record);
            set_once(method, record, scratch, field, (groat_text){(const char *)data, size},
                     comma == 1);
        }
    }
    try_as_rate(method, data, size);
    return 0;
}
