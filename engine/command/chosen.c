#include "command/chosen.h"

#include <stdio.h>
#include <string.h>

#include "command/say.h"
#include "text/near.h"

bool chosen_is(struct products *products, size_t row, const char *name)
{
    if (!name)
        return true;
    groat_text label = products_label(products, row);
    return label.length == strlen(name) && memcmp(label.start, name, label.length) == 0;
}

size_t chosen_count(struct products *products, const char *name)
{
    size_t count = 0;
    for (size_t row = 0; row < products_count(products); row++)
        count += chosen_is(products, row, name);
    return count;
}

void chosen_say_products(struct products *products)
{
    enum { PRODUCTS_SAID = 10 };
    struct say_list list = {.begin = "groat: the products are"};
    size_t count = products_count(products);
    for (size_t row = 0; row < count && row < PRODUCTS_SAID; row++) {
        groat_text label = products_label(products, row);
        say_list_item(&list, label.start, label.length);
    }
    say_list_end(&list);
}

bool chosen_exists(struct products *products, const char *name)
{
    if (!name || chosen_count(products, name) > 0)
        return true;
    struct near near = near_to(name, strlen(name));
    char best[256];
    for (size_t row = 0; row < products_count(products); row++) {
        groat_text label = products_label(products, row);
        char word[sizeof best];
        snprintf(word, sizeof word, "%.*s", (int)label.length, label.start);
        const char *before = near.best;
        near_offer(&near, word);
        if (near.best != before)
            near.best = strcpy(best, word);
    }
    say("groat: the sheet has no product %s", name);
    if (near.best)
        say_try(near.best);
    else
        chosen_say_products(products);
    return false;
}
