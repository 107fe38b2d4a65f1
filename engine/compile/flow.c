/* What is known of a value: whether it may be missing, and how it depends on the price. */
#include "compile/compile.h"

struct flow flow_fixed(uint32_t step)
{
    return (struct flow){.step = step};
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

void require_there(struct compile *compile, struct flow flow, const struct expression *expression,
                   const char *what)
{
    if (!flow.may_miss)
        return;
    int length = span_length(expression->span);
    const char *help =
        length > 60 ? "… otherwise $0"
                    : arena_print(compile->arena,
                                  expression->kind == EXPRESSION_NAME ? "%.*s otherwise $0"
                                                                      : "(%.*s) otherwise $0",
                                  length, span_text(expression->span));
    diagnostics_error(compile->diagnostics, expression->span, help,
                      "%s must have a value, and this could be missing", what);
}

void require_linear(struct compile *compile, struct flow flow, const struct expression *expression,
                    const char *what)
{
    if (flow.degree == DEGREE_RATIO)
        flow = flow_bad(flow, expression->span, "divides by an amount that depends on the price");
    if (flow.degree == DEGREE_BAD)
        diagnostics_error(compile->diagnostics, flow.bad_span, NULL,
                          "this %s, so the least price for %s could not be proved", flow.bad, what);
}

void note_otherwise(struct compile *compile, const struct expression *expression, bool may_miss)
{
    if (compile->in_function)
        return;
    for (size_t i = 0; i < compile->otherwises_count; i++) {
        if (compile->otherwises[i].expression == expression) {
            compile->otherwises[i].may_miss |= may_miss;
            return;
        }
    }
    compile->otherwises =
        arena_grow(compile->arena, compile->otherwises, sizeof *compile->otherwises,
                   &compile->otherwises_room, compile->otherwises_count + 1);
    compile->otherwises[compile->otherwises_count++] =
        (struct otherwise_note){expression, may_miss};
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
