#include "command/hands.h"

#include <stdlib.h>

#include "command/terminal.h"
#include "command/say.h"
#include "memory/memory.h"
#include "study/crew.h"

#define PRODUCTS_A_HAND 8 /* held at once: enough that none waits long for the others */

struct hands {
    struct pricing *pricing;
    const struct hands_plan *plan;
    void *context;
    size_t count;
    groat_scratch *scratches[CREW_MOST];
    struct hand *slots; /* one for each product that is held */
    size_t slots_count;
    size_t filled;
    struct memory memory;
    struct arena labels; /* of those products: the sheet's may be gone with the next one */
};

static bool open_hands(struct hands *hands)
{
    const groat_method *method = hands->pricing->method;
    hands->count = crew_hands();
    for (size_t i = 0; i < hands->count; i++)
        if (!(hands->scratches[i] = groat_scratch_new(method)))
            return false;
    hands->slots_count = hands->count * PRODUCTS_A_HAND;
    hands->slots = calloc(hands->slots_count, sizeof *hands->slots);
    if (!hands->slots)
        return false;
    for (size_t i = 0; i < hands->slots_count; i++) {
        struct hand *hand = &hands->slots[i];
        hand->record = groat_record_new(method);
        hand->own = hands->plan->open(hands->context);
        if (!hand->record || !hand->own)
            return false;
    }
    return true;
}

static void close_hands(struct hands *hands)
{
    for (size_t i = 0; hands->slots && i < hands->slots_count; i++) {
        groat_record_free(hands->slots[i].record);
        if (hands->slots[i].own)
            hands->plan->close(hands->slots[i].own);
    }
    free(hands->slots);
    arena_close(&hands->labels);
    for (size_t i = 0; i < hands->count; i++)
        groat_scratch_free(hands->scratches[i]);
}

/* Fills slots with the next products, from `*row` on. */
static bool fill_slots(struct hands *hands, size_t *row)
{
    struct pricing *pricing = hands->pricing;
    size_t count = products_count(pricing->products);
    hands->filled = 0;
    arena_empty(&hands->labels);
    for (; *row < count && hands->filled < hands->slots_count; ++*row) {
        struct hand *slot = &hands->slots[hands->filled];
        if (!products_is(pricing->products, *row, pricing->request->product))
            continue;
        groat_text label = products_label(pricing->products, *row);
        slot->row = *row;
        slot->label.length = label.length;
        slot->label.start = arena_text(&hands->labels, label.start, label.length);
        if (!slot->label.start) {
            say_no_memory();
            return false;
        }
        if (products_fill(pricing->products, *row, slot->record))
            hands->filled++;
        else
            pricing->status = STATUS_PARTLY;
    }
    return true;
}

static void work_on(void *given, size_t hand, size_t thing)
{
    struct hands *hands = given;
    struct hand *slot = &hands->slots[thing];
    slot->scratch = hands->scratches[hand];
    hands->plan->work(hands->context, slot);
}

static bool take_slots(struct hands *hands)
{
    for (size_t i = 0; i < hands->filled; i++)
        if (!hands->plan->take(hands->context, &hands->slots[i]))
            return output_failed(&hands->pricing->output);
    return true;
}

static bool walk(struct hands *hands)
{
    size_t count = products_count(hands->pricing->products), row = 0;
    while (row < count) {
        if (!fill_slots(hands, &row))
            return false;
        crew_run(hands->count, hands->filled, work_on, hands);
        if (!take_slots(hands))
            return false;
        progress_tell_now(row, count);
    }
    return true;
}

bool hands_walk(struct pricing *pricing, const struct hands_plan *plan, void *context)
{
    struct hands hands = {
        .pricing = pricing, .plan = plan, .context = context, .memory = memory_standard()};
    arena_open(&hands.labels, &hands.memory);
    pricing_begin_progress(pricing);
    bool opened = open_hands(&hands);
    bool walked = opened && walk(&hands);
    progress_clear();
    pricing_say_left_out(pricing);
    if (!opened)
        say_no_memory();
    close_hands(&hands);
    return walked;
}
