/* Numbers of JSON with an exponent. Private to this room. */
#ifndef GROAT_SHEET_EXPONENT_H
#define GROAT_SHEET_EXPONENT_H

#include <stddef.h>

#define EXPONENT_TEXT_MOST 512

/* Writes a number of JSON out in decimals, `5e-05` as `0.00005`: exactly the same number. Returns
 * the length of the text; 0 if the number has no exponent, or one that no double has, or more
 * digits than any program writes of a double. */
size_t exponent_written_out(const char *text, size_t length, char plain[EXPONENT_TEXT_MOST]);

#endif
