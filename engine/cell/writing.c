#include "cell/writing.h"

#include <string.h>

#include "text/utf8.h"

struct writing cell_writing(bool decimal_comma, bool money)
{
    return (struct writing){decimal_comma ? '.' : ',', decimal_comma ? ',' : '.', money};
}

/* The length of a space that sheets put between thousands: no-break and narrow no-break. */
static size_t thousands_space(const char *at, const char *end)
{
    if (end - at >= 2 && memcmp(at, "\xC2\xA0", 2) == 0)
        return 2;
    return end - at >= 3 && memcmp(at, "\xE2\x80\xAF", 3) == 0 ? 3 : 0;
}

static size_t digits_at(const char *at, const char *end)
{
    size_t count = 0;
    while (at + count < end && text_is_digit(at[count]))
        count++;
    return count;
}

/* The length of a divider of thousands at `at`, three digits and no fourth after it; or 0. */
static size_t divider(const struct writing *writing, const char *at, const char *end)
{
    size_t length =
        at < end && *at == writing->group && writing->money ? 1 : thousands_space(at, end);
    return length && digits_at(at + length, end) == 3 ? length : 0;
}

/* Takes over the digits before a decimal sign, `1,234` as 1234. Only a number of one to three
 * digits that do not begin with a zero is followed by thousands. */
static const char *take_whole(const struct writing *writing, const char *at, const char *end,
                              char **to)
{
    size_t count = digits_at(at, end);
    bool leads = count <= 3 && *at != '0';
    memcpy(*to, at, count);
    *to += count;
    at += count;
    for (size_t length = divider(writing, at, end); leads && length > 0;
         length = divider(writing, at, end)) {
        memcpy(*to, at + length, 3);
        *to += 3;
        at += length + 3;
    }
    return at;
}

/* The length of what price tags have in place of no decimals, the end of `320,-`; or 0. */
static size_t dash_of_a_tag(const struct writing *writing, const char *at, const char *end)
{
    static const char *const dashes[] = {"-", "\xE2\x80\x93"};
    if (!writing->money || end - at < 2 || (*at != ',' && *at != '.'))
        return 0;
    for (size_t i = 0; i < sizeof dashes / sizeof *dashes; i++) {
        size_t length = 1 + strlen(dashes[i]);
        if ((size_t)(end - at) < length || memcmp(at + 1, dashes[i], length - 1) != 0)
            continue;
        const char *after = at + length;
        return after == end || *after == ' ' || thousands_space(after, end) ? length : 0;
    }
    return 0;
}

char *cell_plainly_written(struct arena *arena, const struct writing *writing, const char *text,
                           size_t length, size_t *plain_length, const char **doubt)
{
    char *plain = arena_take(arena, length + 1), *to = plain;
    const char *at = text, *end = text + length;
    *doubt = NULL;
    while (at < end) {
        size_t space = thousands_space(at, end);
        if (text_is_digit(*at)) {
            at = take_whole(writing, at, end, &to);
            at += dash_of_a_tag(writing, at, end);
            bool decimals = at < end && *at == writing->decimal && digits_at(at + 1, end) > 0;
            if (at < end && *at == writing->group && digits_at(at + 1, end) > 0 && !*doubt)
                *doubt = at;
            if (!decimals)
                continue;
            size_t count = digits_at(at + 1, end);
            *to++ = '.';
            memcpy(to, at + 1, count);
            to += count;
            at += 1 + count;
        } else if (writing->decimal == ',' && *at == ',' && digits_at(at + 1, end) > 0) {
            *to++ = '.'; /* `,99` */
            at++;
        } else {
            *to++ = space ? ' ' : *at;
            at += space ? space : 1;
        }
    }
    *plain_length = (size_t)(to - plain);
    return plain;
}

char *cell_as_written(struct arena *arena, const struct writing *writing, const char *literal)
{
    char *written = arena_text(arena, literal, strlen(literal));
    for (char *at = written; *at; at++)
        if (*at == '.' && at > written && text_is_digit(at[-1]) && text_is_digit(at[1]))
            *at = writing->decimal;
    return written;
}
