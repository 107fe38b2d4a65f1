#include "study/sweep_line.h"

#include <math.h>
#include <stdlib.h>

#include "study/said.h"

static void close_run(struct sweep_run *run)
{
    amount_close(&run->price);
    for (int i = 0; i < 2; i++) {
        amount_close(&run->keep[i]);
        amount_close(&run->profit[i]);
        free(run->note[i]);
    }
}

void sweep_line_close(struct sweep_line *line)
{
    for (size_t i = 0; i < line->opened; i++)
        close_run(&line->runs[i]);
    free(line->runs);
    *line = (struct sweep_line){0};
}

void sweep_line_clear(struct sweep_line *line)
{
    line->count = 0;
    line->without = 0;
}

/* ---- gathering ---- */

static struct sweep_run *next_run(struct sweep_line *line)
{
    if (line->count == line->room) {
        size_t room = line->room ? line->room * 2 : 16;
        struct sweep_run *runs = realloc(line->runs, room * sizeof *runs);
        if (!runs)
            return NULL;
        line->runs = runs;
        line->room = room;
    }
    struct sweep_run *run = &line->runs[line->count++];
    if (line->count > line->opened) {
        *run = (struct sweep_run){0};
        amount_open(&run->price);
        for (int i = 0; i < 2; i++) {
            amount_open(&run->keep[i]);
            amount_open(&run->profit[i]);
        }
        line->opened = line->count;
    }
    return run;
}

static bool take_end(struct sweep_run *run, int end, const groat_scratch *scratch)
{
    bool priced = run->outcome == GROAT_PRICED;
    groat_value none = {.presence = GROAT_MISSING};
    amount_take(&run->keep[end], priced ? groat_result_figure(scratch, GROAT_KEEP) : none);
    amount_take(&run->profit[end], priced ? groat_result_figure(scratch, GROAT_PROFIT) : none);
    free(run->note[end]);
    run->note[end] = priced ? said_notes(scratch, "; ") : said_reason(scratch);
    return run->note[end] != NULL;
}

static bool same_run(const struct sweep_run *run, groat_outcome outcome, const struct amount *price)
{
    return run->outcome == outcome &&
           (outcome != GROAT_PRICED || mpq_equal(run->price.number, price->number));
}

bool sweep_line_add(struct sweep_line *line, size_t point, groat_outcome outcome,
                    const groat_scratch *scratch)
{
    struct sweep_run *run = next_run(line); /* given back when the point belongs to the last one */
    if (!run)
        return false;
    line->without += outcome == GROAT_REFUSED || outcome == GROAT_FAILED;
    run->outcome = outcome;
    groat_value none = {.presence = GROAT_MISSING};
    bool price = outcome == GROAT_PRICED && line->detail != SWEEP_OUTCOMES;
    amount_take(&run->price, price ? groat_result_figure(scratch, GROAT_PRICE) : none);
    bool again = line->count > 1 && same_run(run - 1, outcome, &run->price);
    if (again) {
        line->count--;
        run--;
    } else {
        run->first = point;
    }
    run->last = point;
    bool told = outcome == GROAT_REFUSED || outcome == GROAT_FAILED;
    if (line->detail != SWEEP_FULL && !(told && !again))
        return true;
    return (again || take_end(run, 0, scratch)) && take_end(run, 1, scratch);
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
        double price = run->outcome == GROAT_PRICED ? mpq_get_d(run->price.number) : NAN;
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
