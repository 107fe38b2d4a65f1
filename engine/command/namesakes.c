#include "command/namesakes.h"

#include <stdlib.h>
#include <string.h>

#include "command/say.h"

/* How many are said; a sheet may have one name in every row. */
#define SAID_MOST 5

struct named {
    groat_text name;
    size_t row;
};

int namesakes_compare(groat_text a, groat_text b)
{
    size_t least = a.length < b.length ? a.length : b.length;
    int order = least > 0 ? memcmp(a.start, b.start, least) : 0;
    return order != 0 ? order : (a.length > b.length) - (a.length < b.length);
}

static int compare_named(const void *a, const void *b)
{
    const struct named *left = a, *right = b;
    int order = namesakes_compare(left->name, right->name);
    return order != 0 ? order : (left->row > right->row) - (left->row < right->row);
}

static void say_one(struct products *products, size_t row, size_t first, bool error)
{
    groat_text name = products_name(products, row);
    if (error)
        say("%s has the same name as line %zu; --since compares products by name",
            products_place(products, row), products_line(products, first));
    else
        say_note("%.300s:%zu: warning: %.*s has the same name as line %zu; explain, sweep and "
                 "effect --since find products by name",
                 products_file(products), products_line(products, row),
                 say_length(name, PRODUCTS_SHOWN_MOST), name.start, products_line(products, first));
}

bool namesakes_none(struct products *products, bool error)
{
    size_t rows = products_count(products), count = 0, found = 0, first = 0;
    struct named *named = malloc((rows + 1) * sizeof *named);
    if (!named) {
        say_no_memory();
        return false;
    }
    for (size_t row = 0; row < rows; row++) {
        groat_text name = products_name(products, row);
        if (name.start)
            named[count++] = (struct named){name, row};
    }
    if (count > 0)
        qsort(named, count, sizeof *named, compare_named);
    for (size_t i = 1; i < count; i++) {
        if (namesakes_compare(named[i].name, named[first].name) != 0)
            first = i;
        else if (found++ < SAID_MOST)
            say_one(products, named[i].row, named[first].row, error);
    }
    if (found > SAID_MOST && (error || say_takes_notes()))
        say("and %zu more products have the same name as another", found - SAID_MOST);
    free(named);
    return found == 0;
}
