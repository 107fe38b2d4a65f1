/* groat check: reads rules and runs their expects. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/file.h"
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

/* The compiled rules; false without memory. */
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

static enum status check_method(FILE *out, const char *name, const groat_method *method, bool steps)
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
    if (steps && !write_steps(out, method)) {
        say_no_memory();
        return STATUS_WRONG;
    }
    write_summary(out, name, method, expects, failed);
    return failed > 0 ? STATUS_PARTLY : STATUS_FINE;
}

static enum status check_one(const struct request *request, const char *name, FILE *out)
{
    groat_method *method = rules_read(name, request);
    enum status status = STATUS_WRONG;
    if (method)
        status = check_method(out, file_called(name), method, request->compiled);
    else if (request->rules_count > 1)
        fprintf(out, "%s: wrong\n", file_called(name));
    groat_method_free(method);
    return status;
}

/* `3 files: 1 fine, 1 with an expect that fails, 1 wrong`. */
static void write_counts(FILE *out, const size_t counts[STATUS_WRONG + 1], size_t files)
{
    static const char *const words[STATUS_WRONG + 1] = {
        [STATUS_FINE] = "fine",
        [STATUS_PARTLY] = "with expects that fail",
        [STATUS_WRONG] = "wrong",
    };
    fprintf(out, "%zu files", files);
    const char *before = ": ";
    for (size_t i = 0; i <= STATUS_WRONG; i++) {
        if (counts[i] > 0)
            fprintf(out, "%s%zu %s", before, counts[i], words[i]);
        before = counts[i] > 0 ? ", " : before;
    }
    fputc('\n', out);
}

enum status verb_check(const struct request *request)
{
    size_t counts[STATUS_WRONG + 1] = {0};
    enum status worst = STATUS_FINE;
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    for (size_t i = 0; i < request->rules_count; i++) {
        enum status status = check_one(request, request->all_rules[i], output.stream);
        worst = status > worst ? status : worst;
        counts[status]++;
    }
    if (request->rules_count > 1)
        write_counts(output.stream, counts, request->rules_count);
    return output_finish(&output, worst);
}
