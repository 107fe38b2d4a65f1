#include "report/goal_list.h"

#include "report/columns.h"
#include "report/goal_words.h"

/* ---- columns ---- */

enum {
    GOAL,
    PRODUCT,
    CHANNEL,
    OUTCOME,
    CURRENCY,
    PRICE,
    NEEDS,
    GIVES,
    SALES,
    SALES_PER_WEEK,
    WEEKS,
    SALES_ALLOWED,
    BRINGS,
    SUFFICES,
    PRICE_NEEDED,
    COLUMNS
};

/* The parts of a table that have a column, besides those of all. */
enum part {
    ALWAYS = 0,
    DATA_ALONE = 1,  /* in no table */
    TABLE_ALONE = 2, /* where what is needed is not the same for all */
    PER_TIME = 4,    /* of a goal per time */
    PACED = 8,       /* of one that is not, where there is a pace */
    LIMITED = 16,    /* of a goal with a limit */
    MONTHLY = 32     /* a month's, of a goal per time */
};

static const struct {
    struct listing_column column;
    unsigned parts;
} all_columns[COLUMNS] = {
    {{"goal", "Goal", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, DATA_ALONE},
    {{"product", "Product", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, ALWAYS},
    {{"channel", "Sold at", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, ALWAYS},
    {{"outcome", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, DATA_ALONE},
    {{"currency", NULL, NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, DATA_ALONE},
    {{"price", "Price", NULL, LISTING_COINS, LISTING_ALWAYS, false, NULL}, ALWAYS},
    {{"needs", "Needed", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL}, TABLE_ALONE | MONTHLY},
    {{"gives", "One sale gives", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL}, ALWAYS},
    {{"sales", "Sales needed", NULL, LISTING_WHOLE, LISTING_ALWAYS, false, NULL}, MONTHLY},
    {{"sales_per_week", "Sales needed", "a week", LISTING_NUMBER, LISTING_IF_ROOM, false,
      "number per week"},
     PER_TIME},
    {{"weeks", "Weeks", NULL, LISTING_NUMBER, LISTING_ALWAYS, false, "weeks"}, PACED},
    {{"sales_allowed", "Sales possible", NULL, LISTING_NUMBER, LISTING_ALWAYS, true, "number"},
     LIMITED | MONTHLY},
    {{"brings", "They would bring", NULL, LISTING_MONEY, LISTING_ALWAYS, false, NULL},
     LIMITED | MONTHLY},
    {{"suffices", "Enough", NULL, LISTING_TEXT, LISTING_ALWAYS, false, NULL}, LIMITED},
    {{"price_needed", "Price needed", NULL, LISTING_COINS, LISTING_UNLESS_ZERO, false, NULL},
     LIMITED},
};

/* ---- a part of the list: the rows of one goal, or all of them ---- */

struct part_of_list {
    const struct goal_list *list;
    struct goals_row *const *rows;
    size_t count;
    groat_goal goal;
    bool table;
    struct listing *listing;
    struct listing_column columns[COLUMNS];
    size_t which[COLUMNS]; /* of all columns */
    size_t columns_count;
    struct goal_words words;
    char weeks_unit[64];
};

/* Whether a table of this goal has the column. */
static bool table_has(const struct part_of_list *part, unsigned parts)
{
    if (parts & DATA_ALONE)
        return false;
    if ((parts & TABLE_ALONE) && goal_needs_are_one(part->rows, part->count))
        return false;
    if (((parts & PER_TIME) && !part->goal.per_time) || ((parts & LIMITED) && !part->goal.limited))
        return false;
    return !(parts & PACED) || (!part->goal.per_time && part->list->pace);
}

static void choose_columns(struct part_of_list *part, bool chosen)
{
    for (size_t i = 0; i < COLUMNS; i++) {
        unsigned parts = all_columns[i].parts;
        if (part->table && !chosen ? !table_has(part, parts) : (parts & TABLE_ALONE) != 0)
            continue;
        struct listing_column column = all_columns[i].column;
        if (i == WEEKS && part->list->pace) {
            snprintf(part->weeks_unit, sizeof part->weeks_unit, "at %s", part->list->pace);
            column.unit = part->weeks_unit;
        }
        if ((parts & MONTHLY) && part->goal.per_time)
            column.unit = "a month";
        part->columns[part->columns_count] = column;
        part->which[part->columns_count++] = i;
    }
}

/* ---- rows ---- */

/* Whether what there is suffices; nothing where that is not asked. */
static const char *word_of(const struct goals_row *row)
{
    switch (row->answer) {
    case GOALS_SUFFICES: return row->limited ? "yes" : NULL;
    case GOALS_TOO_LITTLE: return "no";
    case GOALS_NEVER: return row->limited ? "never" : NULL;
    default: return NULL;
    }
}

/* Decimals of the sales allowed, in a table: what they bring beside it can be followed by eye. */
enum { ALLOWED_PLACES = 1 };

/* Each row is a group of its own: they are ranked, and every one names its product. */
static bool add_row(struct part_of_list *part, size_t index)
{
    const struct goals_row *row = part->rows[index];
    const groat_method *method = part->list->goals->method;
    struct listing_cell all[COLUMNS] = {0}, *cells = listing_cells(part->listing);
    struct amounts *room = listing_room(part->listing);
    struct bytes *notes = listing_notes(part->listing);
    all[GOAL].text = listing_text(groat_method_goal(method, row->goal).text);
    all[PRODUCT].text = part->list->label(part->list->context, row->product);
    all[CHANNEL].text = listing_text(groat_method_channel(method, row->channel));
    columns_take_outcome(&all[OUTCOME], GROAT_PRICED, groat_method_currency(method));
    all[PRICE].amount = row->price;
    all[NEEDS].amount = goal_needs_of_month(room, row);
    all[GIVES].amount = row->gives;
    all[SALES].amount = row->sales;
    all[SALES_PER_WEEK].amount = row->sales_per_week;
    all[WEEKS].amount = row->weeks;
    all[SALES_ALLOWED].amount = part->table
                                    ? amount_round_places(room, row->sales_allowed, ALLOWED_PLACES)
                                    : row->sales_allowed;
    all[BRINGS].amount = row->brings;
    all[SUFFICES].text = listing_text(word_of(row));
    all[PRICE_NEEDED].amount = row->price_needed;
    for (size_t i = 0; i < part->columns_count; i++)
        cells[i] = all[part->which[i]];
    goal_note(notes, &part->words, row);
    if (notes->length > 0)
        bytes_char(notes, '\0');
    return listing_add(part->listing, index);
}

static bool write_listing(struct part_of_list *part, const struct listing_plan *given, FILE *out)
{
    struct listing_plan plan = *given;
    part->table = given->form == LISTING_TABLE;
    choose_columns(part, given->choice != NULL);
    plan.columns = part->columns;
    plan.columns_count = part->columns_count;
    plan.ranked = true;
    part->listing = listing_open(&plan, out);
    bool added = part->listing != NULL;
    for (size_t i = 0; i < part->count && added; i++)
        added = add_row(part, i);
    return part->listing && listing_close(part->listing, added) && added;
}

/* ---- a table for each goal ---- */

typedef void sentence(struct bytes *bytes, const struct goal_words *words,
                      struct goals_row *const *rows, size_t count);

/* A line of text above or below a table. */
static bool write_line(const struct part_of_list *part, sentence *say, bool bold, FILE *out)
{
    struct bytes line = {0};
    if (bold)
        bytes_text(&line, "\033[1m");
    say(&line, &part->words, part->rows, part->count);
    bytes_text(&line, bold ? "\033[0m\n" : "\n");
    bool written = bytes_flush(&line, out);
    bytes_free(&line);
    return written;
}

static bool write_goal(const struct goal_list *list, const struct listing_plan *plan, size_t goal,
                       size_t first, size_t count, FILE *out)
{
    struct part_of_list part = {.list = list,
                                .rows = list->goals->rows + first,
                                .count = count,
                                .goal = groat_method_goal(list->goals->method, goal)};
    part.words = (struct goal_words){list, plan, goal, part.goal};
    if (!write_line(&part, goal_title, plan->bold, out))
        return false;
    if (count > 0 && !write_listing(&part, plan, out))
        return false;
    return write_line(&part, goal_best, false, out);
}

static bool write_goals(const struct goal_list *list, const struct listing_plan *plan, FILE *out)
{
    const struct goals *goals = list->goals;
    size_t at = 0;
    bool begun = false;
    for (size_t goal = 0; goal < groat_method_goals(goals->method); goal++) {
        size_t first = at;
        while (at < goals->count && goals->rows[at]->goal == goal)
            at++;
        if (!goals_wants(goals, goal))
            continue;
        if (begun && fputc('\n', out) == EOF)
            return false;
        begun = true;
        if (!write_goal(list, plan, goal, first, at - first, out))
            return false;
    }
    return true;
}

bool goal_list_write(const struct goal_list *list, const struct listing_plan *given, FILE *out)
{
    struct listing_plan plan = *given;
    plan.currency = groat_method_currency(list->goals->method);
    if (plan.form == LISTING_TABLE)
        return write_goals(list, &plan, out);
    struct part_of_list part = {
        .list = list, .rows = list->goals->rows, .count = list->goals->count};
    plan.decimal_comma = false; /* so also in notes */
    part.words = (struct goal_words){list, &plan, 0, part.goal};
    return write_listing(&part, &plan, out);
}
