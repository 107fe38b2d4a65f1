/* Nanoseconds a price: the library against the same method written by hand in C, in one run, on the
 * same products, and with the same prices. `bench RULES [COUNT]`. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "groat.h"
#include "by_hand.h"

/* ---- the clock and the sums ---- */

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static uint64_t checksum(const int64_t *prices, size_t count)
{
    uint64_t sum = 14695981039346656037u;
    for (size_t i = 0; i < count; i++)
        sum = (sum ^ (uint64_t)prices[i]) * 1099511628211u;
    return sum;
}

static char *read_file(const char *name, size_t *length)
{
    FILE *file = fopen(name, "rb");
    char *text = malloc(1 << 20);
    *length = file && text ? fread(text, 1, 1 << 20, file) : 0;
    if (file)
        fclose(file);
    return text;
}

/* ---- the library ---- */

static int64_t *column_of(const struct product *products, size_t count, size_t offset)
{
    int64_t *tops = malloc(count * sizeof *tops);
    for (size_t i = 0; i < count && tops; i++)
        tops[i] = *(const int64_t *)(const void *)((const char *)&products[i] + offset);
    return tops;
}

static groat_method *read_method(const char *name)
{
    groat_report *report;
    size_t length;
    char *rules = read_file(name, &length);
    groat_method *method = groat_method_read(name, (groat_text){rules, length}, NULL, &report);
    for (size_t i = 0; report && i < groat_report_count(report); i++) {
        char text[1024];
        groat_diagnostic_write(groat_report_at(report, i), text, sizeof text);
        fputs(text, stderr);
    }
    groat_report_free(report);
    free(rules);
    return method;
}

enum { ROUNDS = 7 };

int main(int argc, char **argv)
{
    size_t count = argc > 2 ? strtoul(argv[2], NULL, 10) : 20000;
    groat_method *method = argc > 1 ? read_method(argv[1]) : NULL;
    struct product *products = malloc(count * sizeof *products);
    int64_t *by_hand = malloc(count * sizeof *by_hand), *found = malloc(count * sizeof *found);
    if (!method || !products || !by_hand || !found)
        return 2;
    workload_fill(products, count, 2024);
    static const struct {
        const char *name;
        size_t offset;
        int64_t bottom;
    } fields[] = {{"timber", offsetof(struct product, timber), 100},
                  {"hardware", offsetof(struct product, hardware), 100},
                  {"setup", offsetof(struct product, setup), 1},
                  {"machine", offsetof(struct product, machine), 1},
                  {"bench", offsetof(struct product, bench), 1},
                  {"batch", offsetof(struct product, batch), 1}};
    enum { FIELDS = sizeof fields / sizeof *fields };
    groat_number_column columns[FIELDS];
    for (size_t i = 0; i < FIELDS; i++)
        columns[i] =
            (groat_number_column){groat_method_find_field(method, fields[i].name),
                                  column_of(products, count, fields[i].offset), fields[i].bottom};
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order order = {.channel = 0, .quantity = 1};
    double best_hand = 1e9, best_found = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        double start = seconds();
        for (size_t i = 0; i < count; i++)
            by_hand[i] = price_by_hand(&products[i]);
        double middle = seconds();
        groat_trouble trouble;
        if (groat_price_columns(scratch, method, &order, columns, FIELDS, count, found, NULL,
                                &trouble) != GROAT_OK)
            return 2;
        double end = seconds();
        best_hand = middle - start < best_hand ? middle - start : best_hand;
        best_found = end - middle < best_found ? end - middle : best_found;
    }
    uint64_t hand_sum = checksum(by_hand, count), found_sum = checksum(found, count);
    printf("%zu products, best of %d rounds\n", count, ROUNDS);
    printf("C by hand    %8.1f ns a price   checksum %016llx\n", best_hand / (double)count * 1e9,
           (unsigned long long)hand_sum);
    printf("groat        %8.1f ns a price   checksum %016llx\n", best_found / (double)count * 1e9,
           (unsigned long long)found_sum);
    printf("ratio        %8.1f\n", best_found / best_hand);
    for (size_t i = 0; i < FIELDS; i++)
        free((void *)(uintptr_t)columns[i].tops);
    groat_scratch_free(scratch);
    groat_method_free(method);
    free(products);
    free(by_hand);
    free(found);
    return hand_sum == found_sum ? 0 : 1;
}
