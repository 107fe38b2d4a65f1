#include "command/tender.h"

#include <string.h>

#include "command/say.h"
#include "text/money.h"
#include "text/near.h"

/* ---- currencies ---- */

/* How the most usual currencies are written, from common usage. A sign that is shared by several
 * countries is enough here: a price list is in one currency. Any other is written with its code. */
static const struct {
    char code[4];
    const char *sign;
} signs[] = {
    {"USD", "$"},  {"EUR", "€"},  {"GBP", "£"},  {"JPY", "¥"},   {"CNY", "¥"},  {"AUD", "$"},
    {"CAD", "$"},  {"NZD", "$"},  {"SGD", "$"},  {"HKD", "$"},   {"MXN", "$"},  {"ARS", "$"},
    {"CLP", "$"},  {"COP", "$"},  {"BRL", "R$"}, {"SEK", "kr"},  {"NOK", "kr"}, {"DKK", "kr"},
    {"ISK", "kr"}, {"PLN", "zł"}, {"CZK", "Kč"}, {"HUF", "Ft"},  {"INR", "₹"},  {"KRW", "₩"},
    {"TRY", "₺"},  {"ILS", "₪"},  {"UAH", "₴"},  {"GEL", "₾"}, {"KZT", "₸"},  {"NGN", "₦"},
    {"PHP", "₱"},  {"VND", "₫"},  {"THB", "฿"},
};
enum { SIGNS = sizeof signs / sizeof *signs };

/* The code that somebody may have meant who wrote a sign, or a word like a code. */
static const char *nearest_code(const char *word)
{
    struct near near = near_to(word, strlen(word));
    for (size_t i = 0; i < SIGNS; i++) {
        if (strcmp(signs[i].sign, word) == 0)
            return signs[i].code;
        near_offer(&near, signs[i].code);
    }
    return near.best;
}

bool tender_read(struct tender *tender, const char *word)
{
    size_t length = strlen(word);
    *tender = (struct tender){.decimals = -1};
    for (size_t i = 0; i < length && length < sizeof tender->code; i++)
        tender->code[i] = word[i] >= 'a' && word[i] <= 'z' ? (char)(word[i] - 'a' + 'A') : word[i];
    tender->decimals = groat_currency_decimals(tender->code);
    if (tender->decimals < 0) {
        const char *nearest = nearest_code(word);
        say("groat: --currency needs the three letters of a currency in ISO 4217, not %s", word);
        say("Try: %s--currency %s", nearest ? "" : "for example ", nearest ? nearest : "EUR");
        return false;
    }
    tender->sign = tender->code;
    for (size_t i = 0; i < SIGNS; i++)
        if (strcmp(signs[i].code, tender->code) == 0)
            tender->sign = signs[i].sign;
    return true;
}

/* ---- amounts ---- */

/* The number at the beginning of a text, `4.20`, `1_980`, `.99`: its length. A point at its end
 * closes a sentence. */
static size_t number_length(const char *text)
{
    size_t whole = strspn(text, "0123456789_");
    size_t decimals = text[whole] == '.' ? strspn(text + whole + 1, "0123456789") : 0;
    return decimals > 0 ? whole + 1 + decimals : whole;
}

/* A number with its point two places further on, without zeros before it: 4.20 becomes 420, and
 * .05 becomes 5. */
static void shift_number(struct bytes *digits, const char *number, size_t length)
{
    size_t whole = strcspn(number, ".");
    bool begun = false;
    whole = whole < length ? whole : length;
    for (size_t at = 0, places = 0; at < length || places < 2; at++) {
        char digit = at < length ? number[at] : '0';
        if (digit == '.' || digit == '_')
            continue;
        places += at >= whole;
        if (places == 3)
            bytes_char(digits, '.');
        begun = begun || digit != '0' || places >= 2;
        if (begun)
            bytes_char(digits, digit);
    }
}

/* Appends the number at `at`, as it is or shifted; returns its length. */
static size_t write_number(const struct tender *tender, struct bytes *out, const char *at)
{
    size_t length = number_length(at);
    if (tender->decimals > 0)
        bytes_put(out, at, length);
    else
        shift_number(out, at, length);
    return length;
}

/* `$4.20`, from behind its sign. */
static size_t write_amount(const struct tender *tender, struct bytes *out, const char *at)
{
    bool word = text_sign_is_word(tender->sign, strlen(tender->sign));
    bytes_text(out, word ? "" : tender->sign);
    size_t length = write_number(tender, out, at);
    bytes_text(out, word ? " " : "");
    bytes_text(out, word ? tender->sign : "");
    return length;
}

/* `.49 or .99`, the endings of a ladder. */
static size_t write_endings(const struct tender *tender, struct bytes *out, const char *start)
{
    static const char between[] = " or ";
    const char *at = start;
    while (number_length(at) > 0) {
        at += write_number(tender, out, at);
        size_t more = strlen(between);
        if (strncmp(at, between, more) != 0 || number_length(at + more) == 0)
            break;
        bytes_text(out, between);
        at += more;
    }
    return (size_t)(at - start);
}

/* The length of the word at `at` if it is this one. */
static size_t is_word(const char *at, const char *word)
{
    size_t length = strlen(word);
    return strncmp(at, word, length) == 0 ? length : 0;
}

void tender_write(const struct tender *tender, struct bytes *out, const char *text)
{
    const char *at = text;
    while (*at) {
        size_t length;
        if (*at == '$' && number_length(at + 1) > 0) {
            at += 1 + write_amount(tender, out, at + 1);
        } else if ((length = is_word(at, "currency USD $")) > 0) {
            bool own_sign = strcmp(tender->sign, tender->code) != 0;
            bytes_text(out, "currency ");
            bytes_text(out, tender->code);
            bytes_text(out, own_sign ? " " : "");
            bytes_text(out, own_sign ? tender->sign : "");
            at += length;
        } else if ((length = is_word(at, "USD")) > 0) {
            bytes_text(out, tender->code);
            at += length;
        } else if ((length = is_word(at, "ends in ")) > 0) {
            bytes_put(out, at, length);
            at += length + write_endings(tender, out, at + length);
        } else {
            bytes_char(out, *at++);
        }
    }
}
