/* How money is written: where the sign of a currency stands beside its amounts. */
#ifndef GROAT_TEXT_MONEY_H
#define GROAT_TEXT_MONEY_H

#include <stdbool.h>
#include <stddef.h>

/* Whether the sign of a currency is a word, which stands behind an amount with a space between:
 * `45 kr`, `45 zł`, `45 BRL`. One that ends in a mark of money stands before it: `$45`, `R$45`. */
bool text_sign_is_word(const char *sign, size_t length);

/* An amount of money, `-$4.50` or `-80.00 kr`, of its digits, which may have a minus. Follows
 * snprintf. */
size_t text_money(char *buffer, size_t size, const char *sign, const char *digits);

#endif
