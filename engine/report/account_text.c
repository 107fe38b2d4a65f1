/* An account for a person, read from top to bottom: what it costs, what comes off, what is left,
 * and why this price and not a coin less. */
#include <inttypes.h>
#include <string.h>

#include "listing/listing.h"
#include "report/account_form.h"

/* Where things stand on a line. */
struct columns {
    size_t name;   /* the widest name */
    size_t amount; /* the widest amount */
    size_t width;  /* of the line */
};

/* ---- what is left out ---- */

static bool is_zero(const groat_line *line)
{
    int64_t top, bottom;
    return groat_value_fraction(line->value, &top, &bottom) && top == 0;
}

static bool is_named(const groat_line *line, const char *name)
{
    return strcmp(line->name, name) == 0;
}

static const groat_line *find_figure(const groat_explanation *explanation, const char *name)
{
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        if (line->part == GROAT_PART_FIGURE && is_named(line, name))
            return line;
    }
    return NULL;
}

/* A line that says what another one says already, or that there is nothing. */
static bool says_nothing(const groat_explanation *explanation, const groat_line *line)
{
    const groat_line *price = find_figure(explanation, "price");
    bool as_price = price && line != price && strcmp(line->amount, price->amount) == 0;
    if (line->part == GROAT_PART_FIGURE)
        return (is_named(line, "list") || is_named(line, "paid") || is_named(line, "net"))
                   ? as_price
                   : false;
    if (line->part == GROAT_PART_BUYER || line->part == GROAT_PART_TAKEN)
        return is_zero(line) && !line->written;
    return line->part == GROAT_PART_RULE &&
           (strcmp(line->amount, "missing") == 0 || (is_named(line, "discount") && is_zero(line)));
}

/* ---- lines ---- */

/* Words from column `left` on, broken between words before the line gets too wide. */
static void put_wrapped(struct bytes *bytes, const struct columns *columns, size_t left,
                        const char *text)
{
    size_t at = left;
    bool first = true;
    while (*text) {
        size_t length = strcspn(text, " "), width = listing_width(text, length);
        if (!first && at + 1 + width > columns->width) {
            bytes_char(bytes, '\n');
            bytes_spaces(bytes, left);
            at = left;
        } else if (!first) {
            bytes_char(bytes, ' ');
            at++;
        }
        bytes_put(bytes, text, length);
        at += width;
        text += length;
        text += strspn(text, " ");
        first = false;
    }
}

/* How a figure comes about: the expression with its numbers, or as it stands, and its place. */
static void put_how(struct bytes *bytes, const struct columns *columns, size_t left,
                    const groat_line *line)
{
    struct bytes how = {0};
    const char *text = line->worked ? line->worked : line->written;
    if (text)
        bytes_text(&how, text);
    if (line->file) {
        const char *slash = strrchr(line->file, '/');
        bytes_format(&how, "%s[%s:%u]", text ? "  " : "", slash ? slash + 1 : line->file,
                     line->line);
    }
    bytes_char(&how, '\0');
    if (!how.failed && how.length > 1) {
        bytes_text(bytes, "  ");
        put_wrapped(bytes, columns, left, how.start);
    }
    bytes->failed = bytes->failed || how.failed;
    bytes_free(&how);
}

static void put_line(struct bytes *bytes, const struct columns *columns, const groat_line *line)
{
    size_t name = listing_width(line->name, strlen(line->name)) + 2 * line->depth;
    size_t amount = listing_width(line->amount, strlen(line->amount));
    bytes_text(bytes, "  ");
    bytes_spaces(bytes, 2 * line->depth);
    bytes_text(bytes, line->name);
    bytes_spaces(bytes, columns->name > name ? columns->name - name : 0);
    bytes_text(bytes, "  ");
    bytes_spaces(bytes, columns->amount > amount ? columns->amount - amount : 0);
    bytes_text(bytes, line->amount);
    put_how(bytes, columns, 2 + columns->name + 2 + columns->amount + 2, line);
    bytes_char(bytes, '\n');
}

static struct columns measure(const struct account_plan *plan, const groat_explanation *explanation)
{
    struct columns columns = {0, 0, plan->width > 60 ? plan->width : 60};
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        size_t name = listing_width(line->name, strlen(line->name)) + 2 * line->depth;
        size_t amount = listing_width(line->amount, strlen(line->amount));
        if (says_nothing(explanation, line))
            continue;
        columns.name = name > columns.name ? name : columns.name;
        columns.amount = amount > columns.amount ? amount : columns.amount;
    }
    return columns;
}

/* ---- sections ---- */

/* The figures that close a section, in the section that they close. */
static const struct section {
    const char *heading;
    groat_part parts[2];
    const char *figures[4];
} sections[] = {
    {"What one piece costs", {GROAT_PART_COST, GROAT_PART_COST}, {"cost"}},
    {"What the buyer pays", {GROAT_PART_BUYER, GROAT_PART_BUYER}, {"list", "price", "paid"}},
    {"What comes off", {GROAT_PART_TAKEN, GROAT_PART_TAKEN}, {"fees"}},
    {"What is left", {GROAT_PART_SHOW, GROAT_PART_SHOW}, {"keep", "profit", "margin", "take_home"}},
    {"What was asked for", {GROAT_PART_NAME, GROAT_PART_NAME}, {NULL}},
};

static bool closes(const struct section *section, const groat_line *line)
{
    for (size_t i = 0; i < sizeof section->figures / sizeof *section->figures; i++)
        if (section->figures[i] && is_named(line, section->figures[i]))
            return true;
    return false;
}

static bool belongs(const struct section *section, const groat_line *line)
{
    if (line->part == GROAT_PART_FIGURE)
        return closes(section, line);
    return line->part == section->parts[0] || line->part == section->parts[1];
}

static void put_section(struct bytes *bytes, const struct columns *columns,
                        const struct section *section, const groat_explanation *explanation)
{
    bool begun = false, above = false; /* the line that details belong to was put */
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        if (line->part != GROAT_PART_DETAIL)
            above = belongs(section, line) && !says_nothing(explanation, line);
        if (!above)
            continue;
        if (!begun)
            bytes_format(bytes, "\n%s\n", section->heading);
        begun = true;
        put_line(bytes, columns, line);
    }
}

/* ---- why this price ---- */

/* What stands against a lower price; whose it is where another channel shares the price. */
static void put_misses(struct bytes *bytes, const struct columns *columns,
                       const struct account *account, const groat_below *below)
{
    const groat_explanation *explanation = account->explanation;
    bytes_format(bytes, "  The next lower allowed price is %s. It would not do, because:\n",
                 below->price);
    for (size_t i = 0; i < below->misses; i++) {
        const groat_line *miss = groat_explanation_miss(explanation, i);
        bytes_format(bytes, "    %s %s", miss->name, miss->written);
        if (miss->channel && strcmp(miss->channel, account->channel) != 0)
            bytes_format(bytes, " on %s", miss->channel);
        bytes_text(bytes, is_named(miss, "aim") ? " does not hold there" : " is above it");
        if (miss->worked && strcmp(miss->worked, miss->written) != 0) {
            bytes_text(bytes, ": ");
            put_wrapped(bytes, columns, 8, miss->worked);
        }
        bytes_char(bytes, '\n');
    }
}

static void put_footing(struct bytes *bytes, const struct columns *columns,
                        const struct account *account)
{
    groat_below below = groat_explanation_below(account->explanation);
    switch (below.footing) {
    case GROAT_ON_AIM:
        if (below.exists)
            put_misses(bytes, columns, account, &below);
        else
            bytes_text(bytes, "  It is the lowest allowed price.\n");
        break;
    case GROAT_ON_SET: bytes_text(bytes, "  It is the set price, rounded.\n"); break;
    case GROAT_ON_FLOOR: bytes_text(bytes, "  The set price was raised to the floor.\n"); break;
    case GROAT_ON_CEILING: bytes_text(bytes, "  The ceiling keeps it from being higher.\n"); break;
    case GROAT_ON_PIN: bytes_text(bytes, "  It is pinned.\n"); break;
    case GROAT_ON_GIVEN:
    case GROAT_ON_NOTHING: break;
    }
}

static void put_why(struct bytes *bytes, const struct columns *columns,
                    const struct account *account)
{
    const groat_explanation *explanation = account->explanation;
    const groat_line *list = find_figure(explanation, "list");
    const groat_line *price = find_figure(explanation, "price");
    if (list && price && *list->amount && strcmp(list->amount, price->amount) != 0)
        bytes_format(bytes, "\nWhy the list price of %s, for one\n", list->amount);
    else
        bytes_text(bytes, "\nWhy this price\n");
    bool above = false; /* the line that details belong to was put */
    for (size_t i = 0; i < groat_explanation_lines(explanation); i++) {
        const groat_line *line = groat_explanation_line(explanation, i);
        if (line->part != GROAT_PART_DETAIL)
            above = line->part == GROAT_PART_RULE && !says_nothing(explanation, line);
        if (above)
            put_line(bytes, columns, line);
    }
    put_footing(bytes, columns, account);
}

/* ---- all of it ---- */

static void put_heading(struct bytes *bytes, const struct account *account)
{
    const groat_line *price = find_figure(account->explanation, "price");
    bytes_put(bytes, account->product.start, account->product.length);
    bytes_format(bytes, " on %s", account->channel);
    if (account->quantity != 1)
        bytes_format(bytes, ", each of %" PRId64, account->quantity);
    if (account->outcome == GROAT_NOT_SOLD)
        bytes_text(bytes, ": not sold there");
    else if (account->outcome != GROAT_PRICED)
        bytes_format(bytes, ": %s: %s", account->outcome == GROAT_REFUSED ? "refused" : "no price",
                     groat_result_reason(account->scratch));
    else if (price)
        bytes_format(bytes, ": %s", price->amount);
    bytes_char(bytes, '\n');
}

void account_text(struct bytes *bytes, const struct account_plan *plan,
                  const struct account *account)
{
    const groat_explanation *explanation = account->explanation;
    struct columns columns = measure(plan, explanation);
    put_heading(bytes, account);
    for (size_t i = 0; i < sizeof sections / sizeof *sections; i++)
        put_section(bytes, &columns, &sections[i], explanation);
    if (!account->name && groat_explanation_lines(explanation) > 0)
        put_why(bytes, &columns, account);
    for (size_t i = 0; i < groat_result_notes(account->scratch) && !account->name; i++)
        bytes_format(bytes, "%s%s\n", i == 0 ? "\nNotes\n  " : "  ",
                     groat_result_note(account->scratch, i));
}
