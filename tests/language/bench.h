/* Rules with a record and a scratch, for tests that set one cell after another. */
#ifndef GROAT_BENCH_H
#define GROAT_BENCH_H

#include "language/reading.h"

struct bench {
    groat_method *method;
    groat_record *record;
    groat_scratch *scratch;
};

/* For a group's setup and teardown; the bench is the group's state. */
static inline int bench_open(void **state, const char *rules)
{
    static struct bench bench;
    bench.method = read_rules(rules);
    bench.record = groat_record_new(bench.method);
    bench.scratch = groat_scratch_new(bench.method);
    *state = &bench;
    return bench.record && bench.scratch ? 0 : -1;
}

static inline int bench_close(void **state)
{
    struct bench *bench = *state;
    groat_record_free(bench->record);
    groat_scratch_free(bench->scratch);
    groat_method_free(bench->method);
    return 0;
}

#endif
