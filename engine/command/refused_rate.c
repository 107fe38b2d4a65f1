#include "command/refused_rate.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "command/say.h"

/* What to write for a value: itself where it is understood, or else what is proposed for it. */
struct mended {
    char text[200];
    bool changed, is_example;
};

static bool is_understood(const groat_method *method, const char *rate, const char *value,
                          groat_trouble *trouble)
{
    groat_rate_value given = {.rate = rate, .value = value};
    groat_method *made = groat_method_with_rates(method, &given, 1, trouble);
    groat_method_free(made);
    return made != NULL;
}

/* False where nothing can be proposed that is understood. */
static bool mend(const groat_method *method, const char *rate, const char *value,
                 struct mended *mended)
{
    groat_trouble trouble, unused;
    *mended = (struct mended){0};
    if (is_understood(method, rate, value, &trouble)) {
        snprintf(mended->text, sizeof mended->text, "%.190s", value);
        return strlen(value) < sizeof mended->text - 10;
    }
    mended->changed = true;
    mended->is_example = trouble.help_kind == GROAT_HELP_EXAMPLE;
    snprintf(mended->text, sizeof mended->text, "%s", trouble.help);
    return (mended->is_example || trouble.help_kind == GROAT_HELP_VALUE) &&
           is_understood(method, rate, trouble.help, &unused);
}

/* Whether a text must be quoted for a shell. */
static bool needs_quotes(const char *text)
{
    return strpbrk(text, " $*?&;|<>()\"") != NULL;
}

/* The option with what can be understood; false where there is nothing better to type. */
static bool say_option(const char *option, const groat_method *method,
                       const groat_rate_value *given)
{
    struct mended value, toward = {0};
    if (!mend(method, given->rate, given->value, &value) ||
        (given->toward && !mend(method, given->rate, given->toward, &toward)) ||
        (!value.changed && !toward.changed) ||
        (given->toward && (value.is_example || toward.is_example)))
        return false;
    char whole[2 * sizeof value.text + 4];
    snprintf(whole, sizeof whole, "%s%s%s", value.text, given->toward ? ".." : "", toward.text);
    if (strchr(whole, '\'') || (!given->toward && !needs_quotes(whole)))
        return false;
    say("Try: %s%s %s='%s'", value.is_example ? "for example " : "", option, given->rate, whole);
    if (strchr(whole, '$') && !strchr(given->value, '$'))
        say("Use single quotes, or the shell replaces what follows the $");
    return true;
}

void refused_rate_say(const char *option, const groat_method *method,
                      const groat_rate_value *values, const groat_trouble *trouble)
{
    say("groat: %s: %s", option, trouble->message);
    if (trouble->given == SIZE_MAX || !say_option(option, method, &values[trouble->given]))
        say_try_of(trouble);
}
