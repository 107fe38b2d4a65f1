/* How money is written: whether the sign of a currency comes before or after an amount. */
#ifndef GROAT_TEXT_MONEY_H
#define GROAT_TEXT_MONEY_H

#include <stdbool.h>
#include <stddef.h>

/* Whether the sign of a currency is a word. A word is written after an amount with a space between:
 * `45 kr`, `45 zł`, `45 BRL`. A sign that ends in a currency symbol comes before it: `$45`,
 * `R$45`. */
bool text_sign_is_word(const char *sign, size_t length);

/* Writes an amount of money, `-$4.50` or `-80.00 kr`. `digits` may begin with a minus. Follows
 * snprintf. */
size_t text_money(char *buffer, size_t size, const char *sign, const char *digits);

#endif
