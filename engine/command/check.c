/* groat check: reads rules and runs their expects. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/output.h"
#include "command/rules.h"
#include "command/say.h"
#include "command/verb.h"

static void write_count(FILE *out, size_t count, const char *one)
{
    fprintf(out, ", %zu %s%s", count, one, count == 1 ? "" : "s");
}

static void write_summary(FILE *out, const char *name, const groat_method *method, size_t expects,
                          size_t failed)
{
    size_t materials = 0, rates = groat_method_rates(method);
    size_t channels = groat_method_channels(method);
    for (size_t i = 0; i < rates; i++)
        materials += groat_method_rate(method, i).material;
    fprintf(out, "%s: %zu channel%s", name, channels, channels == 1 ? "" : "s");
    write_count(out, rates - materials, "rate");
    if (materials > 0)
        write_count(out, materials, "material");
    if (expects == 0)
        fputs(", no expects", out);
    else if (failed > 0)
        fprintf(out, ", %zu expect%s, %zu failure%s", expects, expects == 1 ? "" : "s", failed,
                failed == 1 ? "" : "s");
    else
        fprintf(out, ", %zu expect%s", expects, expects == 1 ? " holds" : "s hold");
    fputc('\n', out);
}

/* The compiled rules; false, with errno set, without memory. */
static bool write_steps(FILE *out, const groat_method *method)
{
    size_t size = groat_method_steps_write(method, NULL, 0) + 1;
    char *text = malloc(size);
    if (!text)
        return false;
    groat_method_steps_write(method, text, size);
    fputs(text, out);
    free(text);
    return true;
}

static enum status check_method(const char *name, const groat_method *method, bool steps)
{
    size_t expects = 0;
    groat_report *report = groat_method_check(method, &expects);
    if (!report) {
        say_no_memory();
        return STATUS_WRONG;
    }
    rules_say(report);
    size_t failed = groat_report_errors(report);
    groat_report_free(report);
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    if (steps && !write_steps(output.stream, method))
        output_failed(&output);
    write_summary(output.stream, name, method, expects, failed);
    return output_finish(&output, failed > 0 ? STATUS_PARTLY : STATUS_FINE);
}

enum status verb_check(const struct request *request)
{
    groat_method *method = rules_read(request->rules, false);
    if (!method)
        return STATUS_WRONG;
    enum status status = check_method(request->rules, method, request->compiled);
    groat_method_free(method);
    return status;
}
