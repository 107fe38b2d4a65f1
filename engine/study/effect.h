/* What a change does to every price: compares each ticket before and after it. Prices are whole
 * smallest units of the currency, so everything here is exact.
 *
 *     effect_open(&effect, decimals, band);
 *     effect_was(&effect, &place, &ticket);                 for each ticket before the change
 *     effect_ready(&effect);
 *     effect_now(&effect, &place, &question);               for each order after the change
 *     effect_finish(&effect, why, context);
 *     … effect.rows, effect_sum_up …
 *     effect_close(&effect);
 *
 * Functions that return bool return false when memory runs out.
 */
#ifndef GROAT_STUDY_EFFECT_H
#define GROAT_STUDY_EFFECT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "groat.h"
#include "number/amount.h"

/* Which ticket it is. The caller numbers the products; rows come in the order of the numbers. The
 * channel's name must outlive the study. */
struct effect_place {
    size_t product;
    const char *channel;
    int64_t quantity;
};

/* A ticket on one side of the change. */
struct effect_ticket {
    groat_outcome outcome;
    int64_t list, price; /* where it is GROAT_PRICED */
    const char *reason;  /* where it is refused or failed */
    const char *notes;   /* where it is priced: a line each, or with `; ` between them; or NULL */
};

enum effect_move {
    EFFECT_UNCHANGED,
    EFFECT_UP,
    EFFECT_DOWN,
    EFFECT_KEPT,              /* the old price is kept, although the new one would differ */
    EFFECT_NEWLY_REFUSED,     /* or without a price, where `after` failed */
    EFFECT_STILL_REFUSED,     /* on both sides, as far as the old one is known */
    EFFECT_NO_LONGER_REFUSED, /* or without a price, where `before` failed */
    EFFECT_NEWLY_SOLD,
    EFFECT_NO_LONGER_SOLD
};
enum { EFFECT_MOVES = EFFECT_NO_LONGER_SOLD + 1 };

/* Why a ticket that could be held was kept or not. */
enum effect_hold {
    EFFECT_NO_HOLD, /* not asked for, or nothing to hold */
    EFFECT_HELD,
    EFFECT_BEYOND,      /* the new list price differs by more than the band */
    EFFECT_PINNED,      /* the new one is a promise */
    EFFECT_BELOW_FLOOR, /* `limit` */
    EFFECT_ABOVE_CEILING,
    EFFECT_AIM_MISSED,
    EFFECT_OTHER_DISCOUNT,
    EFFECT_HOLD_REFUSED /* the rules refuse the old price: `hold_reason` */
};

/* Why a ticket from before has no order after the change. */
enum effect_loss {
    EFFECT_NOT_LOST,
    EFFECT_KEPT_OFF,   /* the rules keep it off the channel now */
    EFFECT_NO_PRODUCT, /* the sheet no longer has it */
    EFFECT_NO_CHANNEL, /* the rules no longer have it */
    EFFECT_UNREADABLE  /* its row of the sheet cannot be read */
};

struct effect_row {
    struct effect_place place;
    struct effect_ticket before, after;
    bool known; /* there is a ticket of before, whatever its outcome */
    enum effect_move move;
    enum effect_hold hold;
    enum effect_loss loss;
    int64_t list;  /* what the new list price would be, where a ticket is kept */
    int64_t limit; /* of a floor or a ceiling, rounded to the smallest unit */
    const char *hold_reason;
    bool news;   /* it has notes, and they are not those of before */
    size_t turn; /* private: the order of a product's rows */
};

/* A share of the old list price, top/bottom, within which a ticket is kept. */
struct effect_band {
    int64_t top, bottom; /* bottom 0: nothing is kept */
};
/* The band as an amount; its bottom is not 0. */
struct amount effect_band_share(const struct effect_band *band);

struct effect {
    unsigned decimals; /* of the currency */
    struct effect_band band;
    struct effect_was *was; /* private, as the rest is but the rows */
    size_t was_count, was_room;
    struct effect_row *rows; /* in the order of the products, when the study is finished */
    size_t rows_count, rows_room;
    struct amounts room; /* for what is worked out on the way: a study stays where it is */
};

void effect_open(struct effect *effect, unsigned decimals, struct effect_band band);
void effect_close(struct effect *effect);

/* Adds a ticket of before; no two may have the same place. Its texts are copied. */
bool effect_was(struct effect *effect, const struct effect_place *place,
                const struct effect_ticket *ticket);
/* Adds the outcome of groat_price that is in the scratch as a ticket of before. */
bool effect_was_priced(struct effect *effect, const struct effect_place *place,
                       groat_outcome outcome, const groat_scratch *scratch);
/* All tickets of before are there. */
void effect_ready(struct effect *effect);

/* An order after the change. */
struct effect_question {
    groat_scratch *scratch;
    const groat_method *method;
    const groat_record *record;
    const groat_order *order;
};
/* Prices the order, holds it against the ticket of before, and adds a row; no row where there is no
 * ticket on either side. Orders come in the order of their products. */
bool effect_now(struct effect *effect, const struct effect_place *place,
                const struct effect_question *question);

/* Says why a ticket of before met no order. */
typedef enum effect_loss effect_why(void *context, const struct effect_place *place);
/* Adds the tickets of before that met no order, and puts the rows in order. */
bool effect_finish(struct effect *effect, effect_why *why, void *context);

/* Whether something is refused or has no price after the change. */
bool effect_any_refused(const struct effect *effect);

/* What it comes to. The changes are those of every row with a price before and after; of one that
 * stays as it is the change is zero. */
struct effect_summary {
    size_t moves[EFFECT_MOVES]; /* how many rows of each */
    size_t compared;            /* with a price before and after */
    /* Absent where none is compared. The one in the middle of the changes and that of the percents
     * may be of different rows. Means are exact, but where so many different fractions meet that
     * their sum has too many digits: then each counts with EFFECT_MEAN_DECIMALS decimals. */
    struct amount median_change, median_percent, mean_change, mean_percent;
    const struct effect_row *largest; /* by the change, up or down; the first of those; or NULL */
    struct amounts room;              /* of the amounts: a summary stays where it is */
};
#define EFFECT_MEAN_DECIMALS 18
bool effect_sum_up(const struct effect *effect, struct effect_summary *summary);
void effect_summary_close(struct effect_summary *summary);

/* after - before, in the currency, and its share of before; absent where a side has no price. */
struct amount effect_change(const struct effect *effect, const struct effect_row *row);
struct amount effect_percent(const struct effect_row *row);
/* How far the list price goes, up or down, as a share of the one before. */
struct amount effect_list_move(const struct effect_row *row);

#endif
