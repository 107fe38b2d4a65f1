#include "command/next_steps.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "command/shell.h"

enum { RULES, SHEET, USED }; /* the places of the files */

/* ---- what was written ---- */

static void write_files(struct bytes *out, const struct next_steps *next)
{
    static const char *const what[] = {"the method", "its sheet, with example products",
                                       "rules that the method uses"};
    size_t widest = 0;
    for (size_t i = 0; i < next->count; i++)
        if (strlen(next->files[i].name) > widest)
            widest = strlen(next->files[i].name);
    bytes_text(out, "In the folder ");
    bytes_text(out, next->folder);
    bytes_text(out, " there are now:\n");
    for (size_t i = 0; i < next->count; i++) {
        char line[160];
        snprintf(line, sizeof line, "  %-*s  %s%s\n", (int)widest, next->files[i].name,
                 what[i < USED ? i : USED],
                 next->files[i].was_there ? " (there already, and left as it is)" : "");
        bytes_text(out, line);
    }
}

/* Says which currency was taken because none was named, and how to have another. */
static void write_currency(struct bytes *out, const struct next_steps *next)
{
    const char *rules = next->files[RULES].name;
    char line[160];
    snprintf(line, sizeof line,
             "Its amounts are in US dollars. To have it in euros, for example:\n"
             "     groat start %.*s ",
             (int)strcspn(rules, "."), rules);
    bytes_text(out, line);
    size_t length = strlen(next->folder), size = length + sizeof "_eur";
    while (length > 1 && next->folder[length - 1] == '/')
        length--;
    char *folder = malloc(size);
    if (folder) {
        snprintf(folder, size, "%.*s_eur", (int)length, next->folder);
        shell_path(out, folder);
    }
    out->failed = out->failed || !folder;
    free(folder);
    bytes_text(out, " --currency EUR\n");
}

static void write_warning(struct bytes *out, const struct next_steps *next)
{
    const struct tender *tender = next->tender;
    bytes_text(out,
               "Every figure in them is an example to replace: prices, fees and taxes alike.\n");
    if (!next->currency_given)
        write_currency(out, next);
    if (strcmp(tender->code, "USD") == 0)
        return;
    bytes_text(out, "No exchange rate was applied: $1.50 of the original is ");
    tender_write(tender, out, "$1.50 here.\n");
}

/* ---- the figures to change ---- */

/* The rates of a file, in the order of its lines. */
struct figures {
    const groat_method *method;
    const char *file;
    size_t next; /* index of the rate to look at */
};

static bool next_rate(struct figures *figures, bool material, groat_rate *rate)
{
    while (figures->next < groat_method_rates(figures->method)) {
        *rate = groat_method_rate(figures->method, figures->next++);
        if (strcmp(rate->file, figures->file) == 0 && rate->material == material)
            return true;
    }
    return false;
}

static void write_rate(struct bytes *out, const groat_rate *rate)
{
    char line[256];
    snprintf(line, sizeof line, "     line %-3u %-16s  %s\n", rate->line, rate->name, rate->text);
    bytes_text(out, line);
}

/* The rates that come first, line by line, and how many there are after a gap. */
static void write_rates(struct bytes *out, const struct next_steps *next, const char *file)
{
    struct figures figures = {next->method, file, 0};
    groat_rate rate;
    unsigned last = 0, more = 0;
    while (next_rate(&figures, false, &rate)) {
        if (last == 0 || (more == 0 && rate.line == last + 1))
            write_rate(out, &rate);
        else
            more++;
        last = rate.line;
    }
    char line[80];
    snprintf(line, sizeof line, "   and then the %u rate%s below them\n", more,
             more == 1 ? "" : "s");
    bytes_text(out, more > 0 ? line : "");
}

static void write_materials(struct bytes *out, const struct next_steps *next, const char *file)
{
    struct figures figures = {next->method, file, 0};
    groat_rate rate;
    unsigned first = 0, last = 0;
    while (next_rate(&figures, true, &rate)) {
        first = first == 0 ? rate.line : first;
        last = rate.line;
    }
    char line[80];
    snprintf(line, sizeof line, "   and the materials that you buy, lines %u to %u\n", first, last);
    bytes_text(out, first > 0 ? line : "");
}

static void write_path(struct bytes *out, const struct next_steps *next, size_t place)
{
    char *path = folder_path(next->folder, next->files[place].name);
    if (path)
        shell_path(out, path);
    out->failed = out->failed || !path;
    free(path);
}

static void write_figures(struct bytes *out, const struct next_steps *next)
{
    bytes_text(out, "1. With a text editor, put your own figures in place of these, in\n   ");
    write_path(out, next, RULES);
    bytes_text(out, ":\n");
    write_rates(out, next, next->files[RULES].name);
    write_materials(out, next, next->files[RULES].name);
    for (size_t i = USED; i < next->count; i++) {
        struct figures figures = {next->method, next->files[i].name, 0};
        groat_rate rate;
        if (!next_rate(&figures, false, &rate))
            continue;
        bytes_text(out, "   and in ");
        write_path(out, next, i);
        bytes_text(out, ":\n");
        write_rates(out, next, next->files[i].name);
    }
}

/* ---- the sheet and the command ---- */

static void write_sheet(struct bytes *out, const struct next_steps *next)
{
    const struct new_file *sheet = &next->files[SHEET];
    bytes_text(out, "2. With a text editor, or a spreadsheet program that saves CSV, put your own\n"
                    "   products in place of the examples, in ");
    write_path(out, next, SHEET);
    bytes_text(out, ":\n     ");
    bytes_put(out, sheet->bytes, strcspn(sheet->bytes, "\n"));
    bytes_char(out, '\n');
}

static void write_command(struct bytes *out, const struct next_steps *next)
{
    bytes_text(out, "3. Price them:\n     groat price ");
    write_path(out, next, RULES);
    bytes_char(out, ' ');
    write_path(out, next, SHEET);
    bytes_char(out, '\n');
}

void next_steps_write(struct bytes *out, const struct next_steps *next)
{
    write_files(out, next);
    write_warning(out, next);
    bytes_char(out, '\n');
    write_figures(out, next);
    write_sheet(out, next);
    write_command(out, next);
    bytes_text(out,
               "\nLocal rules on tax, on displaying prices and on product safety come first, and\n"
               "so does licensed advice.\n");
}
