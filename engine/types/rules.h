/* Checks of whole statements, within the room of types. */
#ifndef GROAT_RULES_H
#define GROAT_RULES_H

#include "types/check.h"

/* The type a type's name means; false when the name is none. */
bool rules_type_name(const char *name, struct type *type);
/* That an expression uses rates and literals only; `what` may not use more. */
void rules_only_rates(struct check *check, const struct expression *expression, const char *what);
/* A table's keys, cells and values; what it gives. */
struct typed rules_table(struct check *check, const struct statement *table);
/* A ladder's bands. */
void rules_rounding(struct check *check, const struct statement *rounding);
/* What a show shows. */
struct typed rules_show(struct check *check, const struct symbol *show);
void rules_goal(struct check *check, size_t number);
void rules_expect(struct check *check, const struct statement *expect);
/* The price lines, warnings, tax and the rest of one channel. */
void rules_channel(struct check *check, const struct channel *channel);

#endif
