/* Finds list prices: the interface to solving an aim. */
#ifndef GROAT_SEARCH_H
#define GROAT_SEARCH_H

#include "evaluate/evaluate.h"

/* The bytes of `evaluation->lines` that searches in this program need. */
size_t search_room(const struct program *program);

/* The list price in money, or an error. Fills evaluation->findings[search].
 *
 * An aim's price is the least allowed one at which it holds. The search walks upward along the
 * pieces between bends (line.h): a piece on which the aim fails is passed over whole, one on which
 * it holds gives its first price, and where rounding decides the prices are tried one by one, at
 * most SEARCH_WINDOW of them before the pieces are looked at anew. So the work grows with the
 * number of bends, not with the height of the price. */
struct value search_find(struct evaluation *evaluation, uint32_t search, uint32_t step);

enum { SEARCH_WINDOW = 64 };

#endif
