/* Rules with goals, and what groat goals lists of them as CSV. */
#ifndef GROAT_GOAL_CHECKS_H
#define GROAT_GOAL_CHECKS_H

#include "command/command_checks.h"

#define GOALS_HEADINGS                                                                             \
    "goal,product,channel,price,gives,sales,sales_per_week,weeks,sales_allowed,brings,suffices,"   \
    "price_needed,notes\n"

/* Everything that is asked less what it costs is profit, but on `greedy`. */
#define BENCH                                                                                      \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name   text\n"                                                                            \
    "    asks   money\n"                                                                           \
    "    stuff  money       = $0\n"                                                                \
    "    work   time as min = 60 min\n"                                                            \
    "    cap    money       optional\n"                                                            \
    "    owed   money       optional\n"                                                            \
    "    where  text        = \"stall\"\n"                                                         \
    "}\n"                                                                                          \
    "cost material = stuff\n"                                                                      \
    "channel stall { only when where = \"stall\" }\n"                                              \
    "channel greedy {\n"                                                                           \
    "    only when where = \"greedy\"\n"                                                           \
    "    fee all_of_it = 110% of price\n"                                                          \
    "}\n"                                                                                          \
    "refuse \"too dear\" when price > $500\n"                                                      \
    "price {\n"                                                                                    \
    "    set asks\n"                                                                               \
    "    ceiling cap\n"                                                                            \
    "}\n"

#define SAW "goal \"a saw\" {\n    needs $100\n    gives profit\n}\n"
#define INCOME                                                                                     \
    "goal \"an income\" {\n    needs $70 per week\n    gives profit\n    takes work\n"             \
    "    has 10 h per week\n}\n"
#define TRIP "goal \"a trip\" {\n    needs $50\n    gives profit\n    takes work\n    has 10 h\n}\n"

/* The list of a sheet, as CSV without its headings. */
static inline void expect_rows(const char *rules, const char *sheet, const char *options,
                               int status, const char *rows, const char *err)
{
    char line[256], whole[4096];
    write_text("g.rules", rules);
    write_text("p.csv", sheet);
    snprintf(line, sizeof line, "groat goals g.rules p.csv --format csv %s", options);
    snprintf(whole, sizeof whole, "%s%s", GOALS_HEADINGS, rows);
    expect_run(line, status, whole, err);
}

#endif
