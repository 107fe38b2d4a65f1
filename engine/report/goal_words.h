/* Texts about a goal: above its table, below it, and beside a row. Private to this room. */
#ifndef GROAT_REPORT_GOAL_WORDS_H
#define GROAT_REPORT_GOAL_WORDS_H

#include "listing/bytes.h"
#include "report/goal_list.h"

struct goal_words {
    const struct goal_list *list;
    const struct listing_plan *plan; /* for its currency and decimal mark */
    size_t index;                    /* the index of the goal, */
    groat_goal goal;                 /* and the goal itself */
};

/* What is needed, for a month if the goal is per time. */
struct amount goal_needs_of_month(struct amounts *room, const struct goals_row *row);
/* Whether all answered rows need the same amount. */
bool goal_needs_are_one(struct goals_row *const *rows, size_t count);

/* `pay for the router: $2400.00 needed`. */
void goal_title(struct bytes *bytes, const struct goal_words *words, struct goals_row *const *rows,
                size_t count);
/* `First: Nest box on stall, after 65 sales.` The rows are sorted. */
void goal_best(struct bytes *bytes, const struct goal_words *words, struct goals_row *const *rows,
               size_t count);
/* The note about a row; empty if its figures say everything. */
void goal_note(struct bytes *bytes, const struct goal_words *words, const struct goals_row *row);

#endif
