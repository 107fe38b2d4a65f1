/* The effect of a change on every price: compares each ticket before and after the change. Prices
 * are whole smallest units of the currency, so everything here is exact.
 *
 * effect_open(&effect, decimals, band); effect_was(&effect, &place, &ticket); for each ticket
 * before the change effect_ready(&effect); effect_now(&effect, &place, &question); for each order
 * after the change effect_finish(&effect, why, context); … effect.rows, effect_sum_up …
 * effect_close(&effect);
 *
 * Functions that return bool return false when memory runs out. */
#ifndef GROAT_STUDY_EFFECT_H
#define GROAT_STUDY_EFFECT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

/* Identifies a ticket. The caller numbers the products; rows come in the order of the numbers. The
 * channel's name must outlive the study. */
struct effect_place {
    size_t product;
    const char *channel;
    int64_t quantity;
};

/* A ticket on one side of the change. */
struct effect_ticket {
    groat_outcome outcome;
    int64_t list, price; /* if GROAT_PRICED */
    const char *reason;  /* if refused or failed */
    const char *notes;   /* if priced: one on each line, or separated by `; `; or NULL */
};

enum effect_move {
    EFFECT_UNCHANGED,
    EFFECT_UP,
    EFFECT_DOWN,
    EFFECT_KEPT,              /* the old price is kept, although the new one would differ */
    EFFECT_NEWLY_REFUSED,     /* or without a price, where `after` failed; before, it was priced or
                                 not sold */
    EFFECT_STILL_REFUSED,     /* on both sides, if the old ticket is known */
    EFFECT_NO_LONGER_REFUSED, /* or without a price, where `before` failed */
    EFFECT_NEWLY_SOLD,
    EFFECT_NO_LONGER_SOLD /* it was priced, refused or failed before */
};
enum { EFFECT_MOVES = EFFECT_NO_LONGER_SOLD + 1 };

/* Why a ticket that could be held was kept or not. */
enum effect_hold {
    EFFECT_NO_HOLD, /* not requested, or there is nothing to hold */
    EFFECT_HELD,
    EFFECT_BEYOND,      /* the new list price differs by more than the band */
    EFFECT_PINNED,      /* the new price is pinned */
    EFFECT_BELOW_FLOOR, /* `limit` */
    EFFECT_ABOVE_CEILING,
    EFFECT_AIM_MISSED,
    EFFECT_OTHER_DISCOUNT,
    EFFECT_HOLD_REFUSED, /* the rules refuse the old price: `hold_reason` */
    EFFECT_SHARED        /* it could be kept, but not on `shared_with`, which has the same ticket */
};

/* Why a ticket from before has no order after the change. */
enum effect_loss {
    EFFECT_NOT_LOST,
    EFFECT_KEPT_OFF,   /* the rules keep it off the channel now */
    EFFECT_NO_PRODUCT, /* the sheet no longer has it */
    EFFECT_NO_CHANNEL, /* the rules no longer have it */
    EFFECT_UNREADABLE  /* its row of the sheet cannot be read */
};

/* The reason of a ticket whose row of the sheet cannot be read. */
#define EFFECT_UNREAD "its row of the sheet cannot be read"

struct effect_row {
    struct effect_place place;
    struct effect_ticket before, after;
    bool known; /* there is a ticket from before, whatever its outcome */
    enum effect_move move;
    enum effect_hold hold;
    enum effect_loss loss;
    int64_t list;  /* if a ticket is kept: what the new list price would be */
    int64_t limit; /* the floor or ceiling, rounded to the smallest unit */
    const char *hold_reason, *shared_with;
    bool news; /* it has notes that differ from those before */
    /* private */
    size_t turn;                 /* the order of a product's rows */
    size_t ticket;               /* the first channel that shares its price */
    bool shares;                 /* it has that price, and not one pinned for it alone */
    struct effect_ticket as_new; /* if it is kept: what it would be otherwise */
};

/* A share of the old list price, top/bottom, within which a ticket is kept. */
struct effect_band {
    int64_t top, bottom; /* bottom 0: nothing is kept */
};
/* The band as an amount; its bottom is not 0. */
struct amount effect_band_share(const struct effect_band *band);

struct effect {
    unsigned decimals; /* of the currency */
    bool complete;     /* all that was sold before is known: what is not among it was not sold */
    struct effect_band band;
    struct effect_was *was; /* private, like all that follows except the rows */
    size_t was_count, was_room;
    struct effect_row *rows; /* in the order of the products, when the study is finished */
    size_t rows_count, rows_room;
    struct amounts room; /* for what is worked out on the way: a study stays where it is */
    struct arena arena;  /* of the tickets, the rows and their texts */
};

void effect_open(struct effect *effect, unsigned decimals, struct effect_band band);
void effect_close(struct effect *effect);

/* Adds a ticket from before the change. Each must have its own place. Its texts are copied. */
bool effect_was(struct effect *effect, const struct effect_place *place,
                const struct effect_ticket *ticket);
/* Adds the result in the scratch as a ticket from before the change. */
bool effect_was_priced(struct effect *effect, const struct effect_place *place,
                       groat_outcome outcome, const groat_scratch *scratch);
/* Call it when all tickets from before are added. */
void effect_ready(struct effect *effect);

/* An order after the change. */
struct effect_question {
    groat_scratch *scratch;
    const groat_method *method;
    const groat_record *record;
    const groat_order *order;
};
/* Prices the order, compares it with the ticket from before, and adds a row, unless there is no
 * ticket on either side. Orders must come in the order of their products. */
bool effect_now(struct effect *effect, const struct effect_place *place,
                const struct effect_question *question);

/* Returns why a ticket from before has no order. */
typedef enum effect_loss effect_why(void *context, const struct effect_place *place);
/* Adds rows for the tickets from before without an order, and sorts the rows. A ticket that
 * channels share is kept for all of them or for none. */
bool effect_finish(struct effect *effect, effect_why *why, void *context);

/* Whether something is refused or has no price after the change. */
bool effect_any_refused(const struct effect *effect);

/* A summary. It covers every row with a price before and after, including those whose change is
 * zero. */
struct effect_summary {
    size_t moves[EFFECT_MOVES]; /* number of rows of each kind */
    size_t compared;            /* number of rows with a price before and after */
    /* Absent if no row is compared. The two medians may come from different rows. Means are exact,
     * unless the exact sum would have too many digits: then each fraction is rounded to
     * EFFECT_MEAN_DECIMALS decimals. */
    struct amount median_change, median_percent, mean_change, mean_percent;
    const struct effect_row *largest; /* the first with the largest change, up or down; or NULL */
    struct amounts room;              /* of the amounts, so a summary must not be moved */
};
#define EFFECT_MEAN_DECIMALS 18
bool effect_sum_up(const struct effect *effect, struct effect_summary *summary);
void effect_summary_close(struct effect_summary *summary);

/* after - before, in the currency, and as a share of before. Absent if a side has no price. */
struct amount effect_change(const struct effect *effect, const struct effect_row *row);
struct amount effect_percent(const struct effect_row *row);
/* The size of the change of the list price, up or down, as a share of the one before. */
struct amount effect_list_move(const struct effect_row *row);

#endif
