/* What a host may get wrong in a call. Each check says why in words for whoever writes the host, or
 * NULL where nothing is wrong. */
#ifndef GROAT_CALL_H
#define GROAT_CALL_H

#include "library/library.h"

/* What is said of rules that call_has_text finds wanting. */
#define NO_RULES "these rules have a length and no text"

/* Whether the four of a pricing are there, belong to the same rules, and name a channel that is there. */
const char *call_pricing(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record, const groat_order *order);
/* What the order asks for beside its channel; `*days` is its date, where it has one. */
const char *call_order(const groat_order *order, int64_t *days);
/* The same as for a pricing, without an order. */
const char *call_objects(const groat_scratch *scratch, const groat_method *method,
                         const groat_record *record);
/* A text that is NULL has no length. */
bool call_has_text(groat_text text);
/* A list is there unless it is empty, and is no longer than a block of memory can be. */
bool call_has_items(const void *items, size_t count, size_t item_size);
/* How much may be written to a buffer: nothing where there is none, and no more than printf takes. */
size_t call_room(const char *buffer, size_t size);

/* `*trouble`, which may be NULL, says why. Returns GROAT_BAD_VALUE. */
groat_status call_refuse(groat_trouble *trouble, const char *why);

#endif
