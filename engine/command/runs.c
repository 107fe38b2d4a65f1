#include "command/runs.h"

#include <errno.h>
#include <stdlib.h>

#include "command/say.h"
#include "command/terminal.h"
#include "study/crew.h"

/* Runs of the rows in hand for each thread, so that none waits long for the others; and the fewest
 * rows for which a thread is worth its start. */
enum { RUNS_A_THREAD = 4, RUN_ROWS_LEAST = 16 };

/* A run of rows, and all that is needed to price them. */
struct run {
    struct pricing pricing; /* its own products, record and scratch */
    void *own;
    size_t begin, end; /* rows */
    int why;           /* errno after a failure; 0: there was none */
};

struct runs {
    struct pricing *pricing;
    const struct runs_plan *plan;
    void *context;
    size_t threads, count;
    struct run runs[CREW_MOST * RUNS_A_THREAD];
};

static bool open_run(struct runs *runs, struct run *run)
{
    run->pricing = *runs->pricing;
    run->pricing.left_out = (struct left_out){0}; /* the orders of data are only counted */
    run->pricing.products = products_share(runs->pricing->products);
    run->pricing.record = groat_record_new(run->pricing.method);
    run->pricing.scratch = groat_scratch_new(run->pricing.method);
    run->own = runs->plan->open(runs->context, runs->pricing);
    return run->pricing.products && run->pricing.record && run->pricing.scratch && run->own;
}

static void close_run(const struct runs *runs, struct run *run)
{
    if (run->own)
        runs->plan->close(run->own);
    groat_scratch_free(run->pricing.scratch);
    groat_record_free(run->pricing.record);
    products_free(run->pricing.products);
}

/* Divides the rows in hand. Returns the number of runs, which are opened when they are first
 * needed; 0 when memory runs out. */
static size_t divide(struct runs *runs)
{
    const struct products *products = runs->pricing->products;
    size_t begin = products_first(products), end = products_count(products), used = 0;
    size_t most = runs->threads * RUNS_A_THREAD, rows = (end - begin + most - 1) / most;
    rows = rows < RUN_ROWS_LEAST ? RUN_ROWS_LEAST : rows;
    for (; begin < end; begin += rows) {
        struct run *run = &runs->runs[used++];
        if (used > runs->count) {
            runs->count = used;
            if (!open_run(runs, run))
                return 0;
        }
        run->begin = begin;
        run->end = end - begin < rows ? end : begin + rows;
        run->why = 0;
        products_follow(run->pricing.products, products);
    }
    return used;
}

static void work_on(void *given, size_t thread, size_t thing)
{
    struct runs *runs = given;
    struct run *run = &runs->runs[thing];
    (void)thread;
    for (size_t row = run->begin; row < run->end && run->why == 0; row++)
        if (!pricing_row(&run->pricing, row, runs->plan->visit, runs->plan->unread, run->own))
            run->why = errno ? errno : EIO;
}

static bool join(struct runs *runs, struct run *run)
{
    struct pricing *pricing = runs->pricing;
    products_tell(pricing->products, run->pricing.products);
    if (run->pricing.status != STATUS_FINE)
        pricing->status = run->pricing.status;
    pricing->left_out.refused += run->pricing.left_out.refused;
    pricing->left_out.failed += run->pricing.left_out.failed;
    run->pricing.left_out = (struct left_out){0};
    errno = run->why;
    return (run->why == 0 && runs->plan->join(runs->context, run->own)) ||
           output_failed(&pricing->output);
}

/* Prices the rows in hand. */
static bool walk_block(struct runs *runs)
{
    const struct products *products = runs->pricing->products;
    size_t end = products_count(products), used = divide(runs);
    bool going = used > 0 || end == products_first(products);
    if (!going)
        say_no_memory();
    crew_run(runs->threads, used, work_on, runs);
    for (size_t i = 0; i < used && going; i++)
        going = join(runs, &runs->runs[i]);
    progress_tell_now(end, products_are_over(products) ? end : 0);
    return going;
}

static bool walk_shared(struct runs *runs)
{
    struct pricing *pricing = runs->pricing;
    bool going;
    pricing_begin_progress(pricing);
    do
        going = walk_block(runs);
    while (going && (going = pricing_flush(pricing)) && products_next(pricing->products));
    progress_clear();
    pricing_say_left_out(pricing);
    for (size_t i = 0; i < runs->count; i++)
        close_run(runs, &runs->runs[i]);
    return going && !products_are_broken(pricing->products);
}

bool runs_walk(struct pricing *pricing, const struct runs_plan *plan, void *context)
{
    const struct request *request = pricing->request;
    size_t threads = request->jobs ? request->jobs : crew_hands();
    if (threads == 1)
        return pricing_each(pricing, plan->visit, plan->unread, context);
    struct runs *runs = calloc(1, sizeof *runs);
    if (!runs) {
        say_no_memory();
        return false;
    }
    runs->pricing = pricing;
    runs->plan = plan;
    runs->context = context;
    runs->threads = threads;
    bool walked = walk_shared(runs);
    free(runs);
    return walked;
}
