#include "study/sweep_line.h"

#include <math.h>

#include "study/taken.h"

void sweep_line_open(struct sweep_line *line, enum sweep_detail detail)
{
    *line = (struct sweep_line){.detail = detail};
    amounts_open(&line->amounts);
    arena_open(&line->arena, &line->amounts.memory);
}

void sweep_line_close(struct sweep_line *line)
{
    arena_close(&line->arena);
    amounts_close(&line->amounts);
    *line = (struct sweep_line){0};
}

void sweep_line_clear(struct sweep_line *line)
{
    line->runs = NULL;
    line->count = line->room = line->without = 0;
    arena_empty(&line->arena);
    amounts_forget(&line->amounts);
}

/* ---- gathering ---- */

static struct sweep_run *next_run(struct sweep_line *line)
{
    struct sweep_run *runs =
        arena_grow(&line->arena, line->runs, sizeof *runs, &line->room, line->count + 1);
    if (!runs)
        return NULL;
    line->runs = runs;
    runs[line->count] = (struct sweep_run){0};
    return &runs[line->count++];
}

static bool take_end(struct sweep_line *line, struct sweep_run *run, int end,
                     const groat_scratch *scratch)
{
    bool priced = run->outcome == GROAT_PRICED;
    run->keep[end] = run->profit[end] = (struct amount){0};
    if (priced) {
        run->keep[end] = taken_figure(&line->amounts, scratch, GROAT_KEEP);
        run->profit[end] = taken_figure(&line->amounts, scratch, GROAT_PROFIT);
    }
    run->note[end] =
        priced ? taken_notes(&line->arena, scratch, "; ") : taken_reason(&line->arena, scratch);
    return run->note[end] && !amounts_starved(&line->amounts);
}

static bool same_run(const struct sweep_run *run, groat_outcome outcome, struct amount price)
{
    return run->outcome == outcome &&
           (outcome != GROAT_PRICED || amount_compare(run->price, price) == 0);
}

bool sweep_line_add(struct sweep_line *line, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch)
{
    /* It is given back when the point belongs to the last one. */
    struct sweep_run *run = taken_starved(scratch) ? NULL : next_run(line);
    if (!run)
        return false;
    line->without += outcome == GROAT_REFUSED || outcome == GROAT_FAILED;
    run->outcome = outcome;
    if (outcome == GROAT_PRICED && line->detail != SWEEP_OUTCOMES)
        run->price = taken_figure(&line->amounts, scratch, GROAT_PRICE);
    bool again = line->count > 1 && same_run(run - 1, outcome, run->price);
    if (again) {
        line->count--;
        run--;
    } else {
        run->first = point;
    }
    run->last = point;
    bool told = outcome == GROAT_REFUSED || outcome == GROAT_FAILED;
    if (line->detail != SWEEP_FULL && !(told && !again))
        return !amounts_starved(&line->amounts);
    return (again || take_end(line, run, 0, scratch)) && take_end(line, run, 1, scratch);
}

/* ---- what there is to know of it ---- */

bool sweep_line_sold(const struct sweep_line *line)
{
    return line->count > 1 || (line->count == 1 && line->runs[0].outcome != GROAT_NOT_SOLD);
}

void sweep_line_draw(const struct sweep_line *line, size_t points, double *numbers)
{
    for (size_t i = 0; i < points; i++)
        numbers[i] = NAN;
    for (size_t i = 0; i < line->count; i++) {
        const struct sweep_run *run = &line->runs[i];
        double price = run->outcome == GROAT_PRICED ? amount_double(run->price) : NAN;
        for (size_t j = run->first; j <= run->last && j < points; j++)
            numbers[j] = price;
    }
}

size_t sweep_line_prices(const struct sweep_line *line)
{
    size_t count = 0;
    for (size_t i = 0; i < line->count; i++)
        count += line->runs[i].outcome == GROAT_PRICED;
    return count;
}
