#define _POSIX_C_SOURCE 200809L
#include "command/apart.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command/file.h"
#include "command/say.h"

/* Whether writing to `output` would write to the file that is read as `input`. */
static bool is_file(const char *output, const char *input)
{
    struct stat one, two;
    int known = file_is_standard(input) ? fstat(STDIN_FILENO, &two) : stat(input, &two);
    return known == 0 && stat(output, &one) == 0 && S_ISREG(one.st_mode) &&
           one.st_dev == two.st_dev && one.st_ino == two.st_ino;
}

bool apart_from(const struct request *request, const char *input)
{
    const char *const outputs[][2] = {{"--output", request->output}, {"--chart", request->chart}};
    for (size_t i = 0; i < sizeof outputs / sizeof *outputs; i++) {
        if (!outputs[i][1] || !is_file(outputs[i][1], input))
            continue;
        say("groat: %s would overwrite %s, which this command reads", outputs[i][0],
            file_is_standard(input) ? outputs[i][1] : input);
        return false;
    }
    return true;
}

bool apart_from_all(const struct request *request)
{
    const char *const inputs[] = {request->rules, request->products, request->against,
                                  request->since};
    const char *output = request->output, *chart = request->chart;
    if (output && chart && (strcmp(output, chart) == 0 || is_file(output, chart))) {
        say("groat: --output and --chart are the same file");
        return false;
    }
    for (size_t i = 0; i < sizeof inputs / sizeof *inputs; i++)
        if (inputs[i] && !apart_from(request, inputs[i]))
            return false;
    return true;
}
