/* A warning where a name looks across to a channel that may not sell a single piece. A look across
 * is always for one piece, so an `only when` that reads quantity silences the line it stands in. */
#include <string.h>

#include "compile/compile.h"

/* Whether the answer is settled, and what it is. */
static bool always(const struct settled *settled, uint32_t step, bool answer)
{
    struct value value = settled->values[step];
    return value.state == VALUE_THERE && value_is_yes(value) == answer;
}

/* A refusal says the same of few pieces, and a look across still finds the price. */
static const char *in_place_of(struct compile *compile, const struct expression *condition,
                               const char *channel)
{
    int length = span_length(condition->span);
    const char *text = span_text(condition->span);
    if (length > 60 || memchr(text, '\n', (size_t)length))
        return NULL;
    return arena_print(compile->arena,
                       "on channel %s, refuse \"too few pieces\" when not (%.*s), in place of its "
                       "`only when`",
                       channel, length, text);
}

/* Equal steps are written once, so a condition that does not read quantity is the same step for one
 * piece and for any number of them. */
static void warn_of_look(struct compile *compile, const struct settled *settled,
                         const struct leaf *leaf)
{
    const struct expression *look = leaf->expression;
    uint32_t channel = shop_channel(compile->shop, look->channel.text);
    const struct statement *only = compile->shop->channels[channel].only_when;
    const struct step *step = &compile->program->steps[leaf->step];
    if (!only || step->operation != OP_SELECT ||
        step->a == compile->program->channels[channel].sold || always(settled, step->a, true))
        return;
    const char *name = look->channel.text;
    diagnostics_warning(
        compile->diagnostics, look->span, in_place_of(compile, only->value, name),
        always(settled, step->a, false)
            ? "`%s on %s` is always missing: it is for one piece, and %s does not sell one"
            : "`%s on %s` may be missing: it is for one piece, and %s may not sell one",
        look->name.text, name, name);
    diagnostics_help_is(compile->diagnostics, HELP_ELSEWHERE);
}

void warn_of_looks(struct compile *compile, const struct settled *settled)
{
    const struct program *program = compile->program;
    for (size_t i = 0; i < program->leaves_count; i++)
        if (program->leaves[i].expression->kind == EXPRESSION_ON)
            warn_of_look(compile, settled, &program->leaves[i]);
}
