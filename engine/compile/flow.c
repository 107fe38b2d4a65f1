/* What is known of a value: whether it may be missing, and how it depends on the price. */
#include "compile/compile.h"
#include "types/propose.h"

struct flow flow_fixed(uint32_t step)
{
    return (struct flow){.step = step};
}

struct flow flow_whole(struct compile *compile, int64_t number)
{
    return flow_fixed(emit_number(compile, num_whole(number)));
}

struct flow flow_bad(struct flow flow, struct span span, const char *why)
{
    if (flow.degree == DEGREE_BAD)
        return flow; /* the first reason is the one to mend */
    flow.degree = DEGREE_BAD;
    flow.bad = why;
    flow.bad_span = span;
    return flow;
}

struct flow flow_join(uint32_t step, struct flow a, struct flow b)
{
    struct flow worse = a.degree >= b.degree ? a : b;
    worse.step = step;
    worse.may_miss = a.may_miss || b.may_miss;
    worse.text = false;
    return worse;
}

/* The first name in an expression that stands for an optional field, or NULL. What only asks
 * whether one is missing is never missing itself. */
static const struct symbol *optional_within(const struct compile *compile,
                                            const struct expression *expression)
{
    if (!expression || expression->kind == EXPRESSION_IS_MISSING)
        return NULL;
    if (expression->kind == EXPRESSION_NAME || expression->kind == EXPRESSION_WORTH) {
        const struct symbol *symbol = shop_find(compile->shop, NO_CHANNEL, expression->name.text);
        bool optional = symbol && symbol->kind == SYMBOL_FIELD && symbol->statement->optional;
        return optional ? symbol : NULL;
    }
    const struct symbol *found = optional_within(compile, expression->left);
    if (!found)
        found = optional_within(compile, expression->right);
    return found ? found : optional_within(compile, expression->third);
}

/* Nothing of a kind of value, as it is written; NULL where only the maker knows what it is. */
static const char *nothing_of(struct compile *compile, const struct symbol *field)
{
    switch (field->type.kind) {
    case TYPE_FLAG: return "no";
    case TYPE_TEXT: return "\"\"";
    case TYPE_NUMBER: break;
    default: return NULL;
    }
    if (dim_is_money(field->type.dimension))
        return propose_money(compile->shop, "0");
    if (dim_is_none(field->type.dimension))
        return "0";
    return field->statement->as
               ? arena_print(compile->arena, "0 %s", field->statement->as->name.text)
               : NULL;
}

void require_there(struct compile *compile, struct flow *flow, const struct expression *expression,
                   const char *what)
{
    if (!flow->may_miss)
        return;
    flow->may_miss = false; /* said once; what depends on it is not to blame */
    const struct symbol *field = optional_within(compile, expression);
    const char *help = "… otherwise …";
    const char *nothing = field ? nothing_of(compile, field) : NULL;
    bool parts = field && field->type.kind == TYPE_PARTS;
    if (parts)
        help = arena_print(compile->arena, "(worth of %s otherwise %s)", field->name,
                           propose_money(compile->shop, "0"));
    else if (field)
        help =
            arena_print(compile->arena, "(%s otherwise %s)", field->name, nothing ? nothing : "…");
    diagnostics_error(compile->diagnostics, expression->span, help,
                      "%s must have a value, and this could be missing", what);
    diagnostics_help_is(compile->diagnostics, nothing || parts ? HELP_VALUE : HELP_CHOICE);
}

/* What depends on a wrong fee is not wrong once more. */
static bool is_told(const struct compile *compile, struct span span)
{
    for (size_t i = 0; i < compile->diagnostics->count; i++) {
        struct span told = compile->diagnostics->items[i].span;
        if (told.source == span.source && told.start == span.start && told.end == span.end)
            return true;
    }
    return false;
}

void require_linear(struct compile *compile, struct flow flow, const struct expression *expression,
                    const char *what)
{
    if (flow.degree == DEGREE_RATIO)
        flow = flow_bad(flow, expression->span, "divides by an amount that depends on the price");
    if (flow.degree == DEGREE_BAD && !is_told(compile, flow.bad_span))
        diagnostics_error(compile->diagnostics, flow.bad_span, NULL,
                          "in %s, this %s, so the least price cannot be found for certain", what,
                          flow.bad);
}

struct asked_otherwise {
    const struct compile *compile;
    const struct expression *expression;
};

static bool same_otherwise(const void *context, uint32_t number)
{
    const struct asked_otherwise *asked = context;
    return asked->compile->otherwises[number].expression == asked->expression;
}

void note_otherwise(struct compile *compile, const struct expression *expression, bool may_miss)
{
    if (compile->around.in_function)
        return;
    struct asked_otherwise asked = {compile, expression};
    uint32_t *number =
        index_find(&compile->otherwise_index, compile->arena,
                   index_hash(INDEX_HASH, (uintptr_t)expression), same_otherwise, &asked);
    if (*number != NO_STEP) {
        compile->otherwises[*number].may_miss |= may_miss;
        return;
    }
    *number = (uint32_t)compile->otherwises_count;
    ARENA_ADD(compile->arena, compile->otherwises, (struct otherwise_note){expression, may_miss});
}

enum num_rounding rounding_of(enum tree_rounding rounding)
{
    switch (rounding) {
    case ROUNDING_UP: return NUM_UP;
    case ROUNDING_DOWN: return NUM_DOWN;
    case ROUNDING_EVEN: return NUM_EVEN;
    default: return NUM_NEAREST;
    }
}
