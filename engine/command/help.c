#include "command/help.h"

#include <stdio.h>

#include "command/options.h"
#include "command/output.h"

#define VERB_ROW(name, takes, options) {#name, takes, options, &manual_##name, verb_##name},
const struct verb verbs[] = {VERBS(VERB_ROW)};
const size_t verbs_count = sizeof verbs / sizeof *verbs;

static void write_verbs(FILE *out)
{
    fputs("groat prices products by a shop's own rules.\n\n"
          "  groat start                              ready-made methods to begin with\n"
          "  groat VERB RULES [PRODUCTS] [options]\n\n"
          "RULES or PRODUCTS may be -, which is standard input.\n\n"
          "Verbs:\n",
          out);
    for (size_t i = 0; i < verbs_count; i++)
        fprintf(out, "  %-9s %s", verbs[i].name, verbs[i].manual->summary);
    fputs("\ngroat help VERB describes a verb and its options.\n", out);
}

static void write_verb(FILE *out, const struct verb *verb)
{
    static const char *const words[] = {
        [TAKES_SEVERAL] = "RULES ...",
        [TAKES_RULES_AND_PRODUCTS] = "RULES PRODUCTS",
        [TAKES_METHOD_AND_FOLDER] = "[METHOD FOLDER]",
    };
    fprintf(out, "groat %s %s%s\n\n", verb->name, words[verb->takes],
            verb->options ? " [options]" : "");
    fprintf(out, "%sOptions, written --name VALUE or --name=VALUE, in any place:\n",
            verb->manual->text);
    options_write(out, verb->options);
    fprintf(out, "\nFor example:\n%s", verb->manual->examples);
}

enum status help_print(const struct verb *verb)
{
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    if (verb)
        write_verb(output.stream, verb);
    else
        write_verbs(output.stream);
    return output_finish(&output, STATUS_FINE);
}

enum status help_print_version(void)
{
    struct output output;
    if (!output_open(&output, NULL))
        return STATUS_WRONG;
    fprintf(output.stream, "groat %s\n", groat_version());
    return output_finish(&output, STATUS_FINE);
}
