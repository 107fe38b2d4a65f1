/* A host whose own functions have names that functions inside the library have too. Each must call
 * its own, and the library must price as if the host's were not there. By hand: 2 bf at $6 and half
 * an hour at $24 cost $24, and a margin of 20% makes that $30. */
#include <stdio.h>
#include <string.h>

#include "groat.h"

/* The change, in cents. */
int settle(int paid, int price);
int settle(int paid, int price)
{
    return paid - price;
}

/* How many boxes these boards make. */
int assemble(int boards);
int assemble(int boards)
{
    return boards / 7;
}

/* What has been taken on two days, in cents. */
int num_add(int saturday, int sunday);
int num_add(int saturday, int sunday)
{
    return saturday + sunday;
}

/* Which pitch of the arena is taken. */
const char *arena_take(int pitch);
const char *arena_take(int pitch)
{
    return pitch == 1 ? "by the door" : "in the corner";
}

/* The pitch that is open. */
void shop_collect(int pitch);
void shop_collect(int pitch)
{
    printf("the shop collects at pitch %d\n", pitch);
}

static const char rules[] = "currency USD $\n"
                            "product { name text; timber volume as bf; bench time as min }\n"
                            "rate timber_price = $6 per bf\n"
                            "rate hourly = $24 per h\n"
                            "cost wood = timber * timber_price\n"
                            "pay hand_time = bench * hourly\n"
                            "channel stall { }\n"
                            "price { aim margin >= 20%; round up to $0.50 }\n";

static groat_text text_of(const char *text)
{
    return (groat_text){text, strlen(text)};
}

static int set(groat_record *record, const groat_method *method, const char *field,
               const char *cell)
{
    groat_trouble trouble;
    size_t index = groat_method_find_field(method, field);
    return groat_record_set(record, index, text_of(cell), NULL, &trouble) == GROAT_OK;
}

static int print_price(const groat_method *method)
{
    groat_record *record = groat_record_new(method);
    groat_scratch *scratch = groat_scratch_new(method);
    groat_order order = {.channel = 0, .quantity = 1};
    int priced = record && scratch && set(record, method, "name", "Nest box") &&
                 set(record, method, "timber", "2 bf") && set(record, method, "bench", "30") &&
                 groat_price(scratch, method, record, &order) == GROAT_PRICED;
    char price[64] = "none";
    if (priced)
        groat_value_write(groat_result_figure(scratch, GROAT_PRICE), 2, price, sizeof price);
    printf("price: %s\n", price);
    groat_scratch_free(scratch);
    groat_record_free(record);
    return priced;
}

int main(void)
{
    groat_report *report;
    groat_method *method = groat_method_read("own names", text_of(rules), NULL, &report);
    groat_report_free(report);
    if (!method)
        return 1;
    int priced = print_price(method);
    groat_method_free(method);
    printf("change: %d\n", settle(4000, 3000));
    printf("boxes: %d\n", assemble(30));
    printf("taken: %d\n", num_add(12500, 9900));
    printf("pitch: %s\n", arena_take(1));
    shop_collect(7);
    return priced ? 0 : 1;
}
