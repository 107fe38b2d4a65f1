/* The shop of the tests of groat effect. */
#ifndef GROAT_EFFECT_CHECKS_H
#define GROAT_EFFECT_CHECKS_H

#include "command/command_checks.h"

/* A shop that is priced by hand in a glance: the least whole dollar that leaves $4 after a fee of $1
 * is wood + wage + 5, which is wood + 15. */
#define AIMED_UNTIL_PRICE                                                                          \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    wood money\n"                                                                             \
    "    low money optional\n"                                                                     \
    "    top money optional\n"                                                                     \
    "    promised money optional\n"                                                                \
    "}\n"                                                                                          \
    "rate wage = $10\n"                                                                            \
    "rate off = 10%\n"                                                                             \
    "rate spread = $0\n"                                                                           \
    "rate most = $90\n"                                                                            \
    "rate least_wood = $0\n"                                                                       \
    "cost material = wood\n"                                                                       \
    "pay hands = wage\n"
#define AIMED_STALL                                                                                \
    "channel stall {\n"                                                                            \
    "    fee pitch = $1\n"                                                                         \
    "    only when wood >= least_wood\n"                                                           \
    "    refuse \"dearer than anyone pays\" when price > most\n"                                   \
    "}\n"
#define AIMED_PRICE                                                                                \
    "price {\n"                                                                                    \
    "    aim profit >= $4\n"                                                                       \
    "    floor low + spread\n"                                                                     \
    "    ceiling top - spread\n"                                                                   \
    "    discount if quantity >= 5 then off else 0%\n"                                             \
    "    pin promised + spread\n"                                                                  \
    "    round up to $1\n"                                                                         \
    "}\n"
#define AIMED AIMED_UNTIL_PRICE AIMED_STALL AIMED_PRICE

#define CSV "product,channel,quantity,before,after,change,percent,notes\n"
#define LIST "product,channel,quantity,list,price,take_home,notes\n"

/* At a wage of $10: $20, $50, $85. */
static inline void write_shop(void)
{
    write_text("shop.rules", AIMED);
    write_text("p.csv", "name,wood\nTray,5\nBox,35\nChest,70\n");
}

#endif
