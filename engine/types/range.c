#include "types/range.h"

/* ---- what a part takes over from another ---- */

static struct expression *copy_of(struct literal_scope scope, const struct expression *expression)
{
    struct expression *copy = arena_take(scope.arena, sizeof *copy);
    *copy = *expression;
    return copy;
}

static bool is_per(const struct expression *expression)
{
    return expression->kind == EXPRESSION_PER || expression->kind == EXPRESSION_EACH;
}

/* `20` beside `30 min` is `20 min`, and `$8` beside `$9 per 200` is `$8 per 200`. */
static const struct expression *completed(struct literal_scope scope, const struct expression *part,
                                          const struct expression *lender)
{
    struct expression *made;
    if (part->kind == EXPRESSION_NEGATE || is_per(part)) {
        const struct expression *inner = is_per(part) && is_per(lender) ? lender->left : lender;
        made = copy_of(scope, part);
        made->left = (struct expression *)completed(scope, part->left, inner);
        return made;
    }
    if (lender->kind == EXPRESSION_NEGATE)
        return completed(scope, part, lender->left);
    if (is_per(lender)) {
        made = copy_of(scope, lender);
        made->left = (struct expression *)completed(scope, part, lender->left);
        made->span = part->span;
        return made;
    }
    bool lends = lender->kind == EXPRESSION_PERCENT || lender->kind == EXPRESSION_MONEY ||
                 lender->kind == EXPRESSION_FRACTION ||
                 (lender->kind == EXPRESSION_QUANTITY && !lender->left);
    if (part->kind != EXPRESSION_NUMBER || !lends)
        return part;
    made = copy_of(scope, part);
    made->kind = lender->kind == EXPRESSION_FRACTION ? EXPRESSION_QUANTITY : lender->kind;
    made->unit = lender->unit;
    return made;
}

/* ---- reading ---- */

enum { LOW, HIGH, LIKELY, PARTS };

static const struct expression *part_of(const struct expression *range, int part)
{
    return part == LOW ? range->left : part == HIGH ? range->right : range->third;
}

static bool refuse(struct literal_scope scope, struct span span, const char *help,
                   const char *message)
{
    diagnostics_error_of(scope.diagnostics, TROUBLE_RANGE, span, help, "%s", message);
    return false;
}

static bool read_part(struct literal_scope scope, const struct expression *range, int which,
                      struct literal *out)
{
    static const int lenders[] = {HIGH, LIKELY, LOW};
    const struct expression *part = part_of(range, which);
    for (size_t i = 0; i < sizeof lenders / sizeof *lenders; i++)
        if (lenders[i] != which && part_of(range, lenders[i]))
            part = completed(scope, part, part_of(range, lenders[i]));
    enum literal_outcome outcome = literal_read(scope, part, out);
    if (outcome == LITERAL_NONE)
        refuse(scope, part->span, NULL, "each part of a range must be a single amount");
    if (outcome == LITERAL_READ && out->type.kind != TYPE_NUMBER)
        return refuse(scope, part->span, NULL, "only numbers and amounts can be a range");
    return outcome == LITERAL_READ;
}

static bool same_measure(struct literal_scope scope, const struct expression *range,
                         const struct literal *parts, int count)
{
    for (int i = 1; i < count; i++) {
        if (parts[i].bare != parts[LOW].bare)
            return refuse(scope, range->span, NULL, "each part of this range needs a unit");
        if (!dim_equal(parts[i].type.dimension, parts[LOW].type.dimension))
            return refuse(scope, part_of(range, i)->span, NULL,
                          "the parts of a range must all have the same dimension");
    }
    return true;
}

/* `a to b`, as they are written. */
static const char *proposed(struct arena *arena, struct span low, struct span high)
{
    return arena_print(arena, "%.*s to %.*s", span_length(low), span_text(low), span_length(high),
                       span_text(high));
}

static bool in_order(struct literal_scope scope, const struct expression *range,
                     const struct range *read)
{
    struct span low = range->left->span, high = range->right->span;
    if (num_compare(read->low, read->high) > 0)
        return refuse(scope, range->span, proposed(scope.arena, high, low),
                      "this range starts above its end");
    if (num_compare(read->low, read->likely) <= 0 && num_compare(read->likely, read->high) <= 0)
        return true;
    return refuse(scope, range->third->span, proposed(scope.arena, low, high),
                  "the likely value lies outside the range");
}

static enum num_status middle_of(struct literal_scope scope, const struct range *range,
                                 struct num *out)
{
    enum num_status status = num_add(scope.heap, range->low, range->high, out);
    return status == NUM_OK ? num_divide(scope.heap, *out, num_whole(2), out) : status;
}

enum literal_outcome range_read(struct literal_scope scope, const struct expression *expression,
                                struct range *out)
{
    struct literal parts[PARTS];
    int count = expression->third ? PARTS : LIKELY;
    for (int i = 0; i < count; i++)
        if (!read_part(scope, expression, i, &parts[i]))
            return LITERAL_WRONG;
    if (!same_measure(scope, expression, parts, count))
        return LITERAL_WRONG;
    *out = (struct range){.type = parts[LOW].type,
                          .low = parts[LOW].number,
                          .high = parts[HIGH].number,
                          .bare = parts[LOW].bare,
                          .percent = parts[LOW].percent,
                          .middle = !expression->third};
    enum num_status status = NUM_OK;
    if (expression->third)
        out->likely = parts[LIKELY].number;
    else
        status = middle_of(scope, out, &out->likely);
    bool read = literal_report(scope, expression->span, status) == LITERAL_READ;
    return read && in_order(scope, expression, out) ? LITERAL_READ : LITERAL_WRONG;
}

bool range_is_one(const struct range *range)
{
    return num_equal(range->low, range->high);
}

const char *range_instead(struct arena *arena, const struct expression *expression)
{
    return expression->kind == EXPRESSION_SUBTRACT
               ? proposed(arena, expression->left->span, expression->right->span)
               : NULL;
}
