/* The benchmark from sheet to price list, by hand: `rows make COUNT` writes a product sheet, and
 * `rows price` reads such a sheet from standard input and writes the price list as groat does, with
 * strtod, doubles and printf. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "by_hand.h"

#define HEADINGS "name,timber,hardware,setup,machine,bench,batch"
#define COLUMNS                                                                                    \
    "product,channel,quantity,outcome,currency,list,price,extras,tax,paid,net,fees,keep,cost,"     \
    "profit,margin,take_home,notes"

static int make(size_t count)
{
    struct product *products = malloc((count + 1) * sizeof *products);
    if (!products)
        return 2;
    workload_fill(products, count, 2024);
    puts(HEADINGS);
    for (size_t i = 0; i < count; i++) {
        const struct product *p = &products[i];
        printf("Piece %zu,%.2f,%.2f,%lld,%lld,%lld,%lld\n", i + 1, (double)p->timber / 100,
               (double)p->hardware / 100, (long long)p->setup, (long long)p->machine,
               (long long)p->bench, (long long)p->batch);
    }
    free(products);
    return 0;
}

/* The next number of a line, and where it ends; whole hundredths where `scale` is 100. */
static int64_t next_number(char **at, int scale)
{
    double number = strtod(*at, at);
    *at += **at == ',';
    return (int64_t)(number * scale + 0.5);
}

static void print_row(const char *name, int name_length, const struct product *p)
{
    double cost = cost_by_hand(p);
    int64_t coins = price_by_hand(p), kept = keep_by_hand(coins);
    double price = (double)coins / 100, keep = (double)kept / 100, profit = keep - cost;
    printf("%.*s,marketplace,1,priced,USD,%.2f,%.2f,0.00,0.00,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f,%.4f,"
           "%.2f,\n",
           name_length, name, price, price, price, price, price - keep, keep, cost, profit,
           profit / price, profit);
}

static int price(void)
{
    char line[512];
    if (!fgets(line, sizeof line, stdin) || strcmp(line, HEADINGS "\n") != 0)
        return 2;
    puts(COLUMNS);
    while (fgets(line, sizeof line, stdin)) {
        char *at = strchr(line, ',');
        if (!at)
            return 2;
        int name_length = (int)(at++ - line);
        struct product product = {0};
        product.timber = next_number(&at, 100);
        product.hardware = next_number(&at, 100);
        product.setup = next_number(&at, 1);
        product.machine = next_number(&at, 1);
        product.bench = next_number(&at, 1);
        product.batch = next_number(&at, 1);
        print_row(line, name_length, &product);
    }
    return fflush(stdout) == 0 && !ferror(stdin) ? 0 : 2;
}

int main(int argc, char **argv)
{
    if (argc == 3 && strcmp(argv[1], "make") == 0)
        return make(strtoul(argv[2], NULL, 10));
    if (argc == 2 && strcmp(argv[1], "price") == 0)
        return price();
    fputs("usage: rows make COUNT | rows price <SHEET\n", stderr);
    return 2;
}
