/* Finds list prices: the interface to solving an aim. */
#ifndef GROAT_SEARCH_H
#define GROAT_SEARCH_H

#include "evaluate/evaluate.h"

/* The number of bytes of `evaluation->lines` that searches in this program need. */
size_t search_room(const struct program *program);

/* Returns the list price in money, or an error. Fills evaluation->findings[search].
 *
 * The price of an aim is the least allowed price at which it holds. The search goes upward along
 * the pieces between bends (line.h). A piece on which the aim fails is skipped as a whole. On a
 * piece on which it holds, the first price is the result. Where rounding decides, prices are tried
 * one by one, at most SEARCH_WINDOW of them before the lines are calculated again. The work
 * therefore grows with the number of bends, not with the price. */
struct value search_find(struct evaluation *evaluation, uint32_t search, uint32_t step);

enum { SEARCH_WINDOW = 64 };

/* What is kept at a price, by working it all out; false when that has no value. */
bool search_keep(struct evaluation *evaluation, const struct member_code *member, int64_t price,
                 struct num *kept);

#endif
