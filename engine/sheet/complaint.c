#include "sheet/complaint.h"

#include <string.h>

#include "text/utf8.h"

/* Mistakes in JSON that makers and their scripts make, recognised by the text at the place. */
static const struct mistake {
    const char *begins, *message, *help;
} mistakes[] = {
    {"NaN", "`NaN` is not JSON", "write null for an empty cell"},
    {"nan", "`nan` is not JSON", "write null for an empty cell"},
    {"Infinity", "`Infinity` is not JSON", "write null for an empty cell"},
    {"-Infinity", "`-Infinity` is not JSON", "write null for an empty cell"},
    {"undefined", "`undefined` is not JSON", "write null for an empty cell"},
    {"None", "`None` is not JSON", "write null for an empty cell"},
    {"True", "`True` is not JSON", "write true"},
    {"False", "`False` is not JSON", "write false"},
    {"'", "a text is in single quotes", "use double quotes: \"tray\""},
    {"\xE2\x80\x9C", "a text is in curly quotes", "use straight quotes: \"tray\""},
    {"//", "JSON has no comments", "remove the comment"},
    {"/*", "JSON has no comments", "remove the comment"},
    {"#", "JSON has no comments", "remove the comment"},
    {"+", "a number may not begin with `+`", "remove the `+`"},
    {".", "a number may not begin with a point", "write 0.5 for .5"},
    {"$", "an amount of money is not in quotes", "put it in double quotes: \"$3.20\""},
};

/* yajl describes an error only by its message. These are the messages of version 2.1. */
static const struct complaint {
    const char *words;
    bool at_token; /* the place is the beginning of the token, not the last byte that yajl read */
    const char *message, *help;
} complaints[] = {
    {"trailing garbage", true, "there is more text after the end of the sheet", "remove it"},
    {"invalid object key", true, "a key must be a text in double quotes",
     "write \"name\": \"tray\""},
    {"inside map, I expect", true, "a comma or a `}` is missing before this",
     "put a comma between two cells"},
    {"after array element", true, "a comma or a `]` is missing before this",
     "put a comma between two products"},
    {"separated by a colon", true, "a `:` is missing between a key and its value",
     "write \"name\": \"tray\""},
    {"invalid character inside string", false,
     "a text contains a line break, a tab or a similar character",
     "close the text with a quote, or write \\n for a line break and \\t for a tab"},
    {"which it may not", false, "a `\\` comes before a character that it cannot be combined with",
     "write \\\\ for a single \\"},
    {"non-hex", false, "`\\u` needs four hexadecimal digits", "write the character itself"},
    {"a digit is required", true, "this number is not finished",
     "write a digit before and after the point, as in 0.5"},
    {"invalid string in json", true, "this word is not JSON", "put text in double quotes"},
    {"invalid char in json", true, "this is not JSON", "put text in double quotes"},
    {"unallowed token", true, "this does not belong here",
     "look for a missing or extra comma, quote or value"},
};

static bool begins(const struct sheet_source *source, size_t at, const char *text)
{
    size_t length = strlen(text);
    return source->length - at >= length && memcmp(source->bytes + at, text, length) == 0;
}

static bool digit_at(const struct sheet_source *source, size_t at)
{
    return at < source->length && text_is_digit(source->bytes[at]);
}

/* Whether a bracket or a second comma follows a comma. */
static bool follows_comma(const struct sheet_source *source, size_t at)
{
    if (at >= source->length || !strchr("}],", source->bytes[at]))
        return false;
    while (at > 0 && strchr(" \t\r\n", source->bytes[at - 1]))
        at--;
    return at > 0 && source->bytes[at - 1] == ',';
}

static bool fail_mistake(const struct sheet_source *source, size_t good_end, size_t token,
                         bool *known)
{
    *known = true;
    for (size_t i = 0; i < sizeof mistakes / sizeof *mistakes; i++)
        if (begins(source, token, mistakes[i].begins))
            return sheet_fail(source, token, mistakes[i].help, "%s", mistakes[i].message);
    if (follows_comma(source, token))
        return sheet_fail(source, token, "remove the comma before it",
                          "there is a comma before this `%c`", source->bytes[token]);
    if (token == good_end && token > 0 && digit_at(source, token) && digit_at(source, token - 1))
        return sheet_fail(source, token - 1, "put it in double quotes to keep its zeros",
                          "a number may not begin with 0");
    *known = false;
    return false;
}

bool complaint_fail(const struct sheet_source *source, const char *words, size_t good_end,
                    size_t token, size_t read)
{
    static const struct complaint unknown = {"", true, "this is not JSON",
                                             "export the sheet again"};
    const struct complaint *found = &unknown;
    for (size_t i = 0; i < sizeof complaints / sizeof *complaints && found == &unknown; i++)
        if (strstr(words, complaints[i].words))
            found = &complaints[i];
    /* `token` was found by skipping commas and colons. That is too far if yajl stopped at one of
     * them. */
    if (read > good_end && token >= read && strchr(",:", source->bytes[read - 1]))
        token = read - 1;
    bool known = false;
    if (found->at_token)
        fail_mistake(source, good_end, token, &known);
    if (known)
        return false;
    return sheet_fail(source, found->at_token ? token : read, found->help, "%s", found->message);
}
