/* Feeds arbitrary text to groat_tidy. Beyond not crashing: a report has an error exactly when there
 * is no tidy text; what cannot be tidied cannot be read as a method either; a tidy text is to the
 * language and to the eye what it was, is clean, and is not changed when it is tidied again. */
#include <stdint.h>
#include <stdlib.h>

#include "groat.h"
#include "language/tidy_checks.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void demand(bool holds)
{
    if (!holds)
        abort();
}

static groat_tidied *tidy(groat_text text)
{
    groat_report *report;
    groat_tidied *tidied = groat_tidy("fuzz.rules", text, NULL, &report);
    demand(report != NULL);
    demand((tidied == NULL) == (groat_report_errors(report) > 0));
    groat_report_free(report);
    return tidied;
}

static void look_at_method(groat_text text)
{
    groat_limits most = groat_limits_default();
    most.steps = 5000;
    most.memory_bytes = (size_t)64 << 20;
    groat_reading reading = {.limits = &most};
    groat_report *report;
    groat_method *method = groat_method_read("fuzz.rules", text, &reading, &report);
    groat_report_free(report);
    demand(method == NULL);
    groat_method_free(method);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    groat_text text = {(const char *)data, size};
    groat_tidied *tidied = tidy(text);
    if (!tidied) {
        look_at_method(text);
        return 0;
    }
    groat_text made = groat_tidied_text(tidied);
    demand(made.start[made.length] == '\0');
    demand(tidy_same_tokens(text.start, text.length, made.start, made.length));
    demand(tidy_same_letters(text.start, text.length, made.start, made.length));
    demand(tidy_is_clean(made.start, made.length));
    groat_tidied *again = tidy(made);
    demand(again != NULL);
    groat_text same = groat_tidied_text(again);
    demand(same.length == made.length && memcmp(same.start, made.start, made.length) == 0);
    groat_tidied_free(again);
    groat_tidied_free(tidied);
    return 0;
}
