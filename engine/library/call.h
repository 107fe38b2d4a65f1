/* Checks of the arguments of public calls. Each returns what is wrong, in words for the programmer
 * of the host, or NULL if nothing is. */
#ifndef GROAT_CALL_H
#define GROAT_CALL_H

#include "library/library.h"

/* Checks that no argument of a pricing is NULL, that all belong to the same rules, and that the
 * channel exists. */
const char *call_pricing(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order);
/* Checks the quantity and the date of the order. Sets `*days` to its date, if it has one. */
const char *call_order(const groat_order *order, int64_t *days);
/* The same as for a pricing, without an order. */
const char *call_objects(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record);
/* Whether the text is usable: a NULL text must have length 0. */
bool call_has_text(groat_text text);
/* Whether a list is usable: not NULL unless it is empty, and no longer than a block of memory can
 * be. */
bool call_has_items(const void *items, size_t count, size_t item_size);
/* The number of bytes that may be written to a buffer: 0 if it is NULL, and no more than printf
 * accepts. */
size_t call_room(const char *buffer, size_t size);

/* Sets `*trouble`, which may be NULL, to the reason. Returns GROAT_BAD_VALUE. */
groat_status call_refuse(groat_trouble *trouble, const char *why);

#endif
