/* Checks of whole statements, within the room of types. */
#ifndef GROAT_RULES_H
#define GROAT_RULES_H

#include "types/check.h"

/* The type with this name; false if no type has it. */
bool rules_type_name(const char *name, struct type *type);
/* Checks that an expression uses only rates and literals, as `what` must. */
void rules_only_rates(struct check *check, const struct expression *expression, const char *what);
/* Checks a table's keys, cells and values. Returns the type of its values. */
struct typed rules_table(struct check *check, const struct statement *table);
/* Checks a ladder's bands. */
void rules_rounding(struct check *check, const struct statement *rounding);
/* Checks a `show`. Returns the type that it shows. */
struct typed rules_show(struct check *check, const struct symbol *show);
void rules_goal(struct check *check, size_t number);
void rules_expect(struct check *check, const struct statement *expect);
/* Checks the price lines, warnings, tax and the other lines of one channel. */
void rules_channel(struct check *check, const struct channel *channel);

#endif
