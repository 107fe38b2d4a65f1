/* Price breaks: the table of several quantities. Every figure is worked out beside its test. */
#include "command/command_checks.h"

#define BULK                                                                                       \
    "currency USD $\n"                                                                             \
    "product {\n"                                                                                  \
    "    name text\n"                                                                              \
    "    wood money\n"                                                                             \
    "}\n"                                                                                          \
    "cost material = wood\n"                                                                       \
    "table bulk by quantity {\n"                                                                   \
    "    10 or more : 12.5%\n"                                                                     \
    "    4 or more : 5%\n"                                                                         \
    "    otherwise : 0%\n"                                                                         \
    "}\n"                                                                                          \
    "channel stall {\n"                                                                            \
    "    fee card = $1 per order\n"                                                                \
    "}\n"                                                                                          \
    "channel shop {\n"                                                                             \
    "    price { discount none }\n"                                                                \
    "}\n"                                                                                          \
    "refuse \"leaves too little\" when profit < $3\n"                                              \
    "price {\n"                                                                                    \
    "    set cost * 2\n"                                                                           \
    "    discount bulk\n"                                                                          \
    "}\n"

/* The stall takes $1 an order: of one piece, 20 cents of five, 10 of ten. */
static void several_quantities_are_a_block_for_each_product_and_channel(void **state)
{
    (void)state;
    write_text("b.rules", BULK);
    write_text("p.csv", "name,wood\nTray,20\nBox,8\n");
    /* Tray at 40 costs 20. On the stall one leaves 40 - 1 - 20 = 19, 19 / 40 = 47.5%.
     * Five at 38: 38 - 0.20 = 37.80, 17.80 a piece (46.8%); in all 190, 189, 89.
     * Ten at 35: 34.90, 14.90 (42.6%); 350, 349, 149. In the shop nothing is off: 20 a piece.
     * Box at 16 costs 8: 16 - 1 - 8 = 7 (43.8%). Five at 15.20: 15.00, 7.00 (46.1%); 76, 75, 35.
     * Ten at 14: 13.90, 5.90 (42.1%); 140, 139, 59. In the shop 8 a piece. */
    expect_run("groat price b.rules p.csv --quantity 1,5,10", 0,
               "                           Price              Price  You keep  Profit          Yo"
               "u keep   Profit\n"
               "Product  Sold at  Pieces    each  Discount   in all      each    each  Margin    "
               "in all   in all\n"
               "---------------------------------------------------------------------------------"
               "---------------\n"
               "Tray     stall         1  $40.00             $40.00    $39.00  $19.00   47.5%    "
               "$39.00   $19.00\n"
               "                       5  $38.00      5.0%  $190.00    $37.80  $17.80   46.8%   $"
               "189.00   $89.00\n"
               "                      10  $35.00     12.5%  $350.00    $34.90  $14.90   42.6%   $"
               "349.00  $149.00\n"
               "         shop          1  $40.00             $40.00    $40.00  $20.00   50.0%    "
               "$40.00   $20.00\n"
               "                       5  $40.00            $200.00    $40.00  $20.00   50.0%   $"
               "200.00  $100.00\n"
               "                      10  $40.00            $400.00    $40.00  $20.00   50.0%   $"
               "400.00  $200.00\n"
               "Box      stall         1  $16.00             $16.00    $15.00   $7.00   43.8%    "
               "$15.00    $7.00\n"
               "                       5  $15.20      5.0%   $76.00    $15.00   $7.00   46.1%    "
               "$75.00   $35.00\n"
               "                      10  $14.00     12.5%  $140.00    $13.90   $5.90   42.1%   $"
               "139.00   $59.00\n"
               "         shop          1  $16.00             $16.00    $16.00   $8.00   50.0%    "
               "$16.00    $8.00\n"
               "                       5  $16.00             $80.00    $16.00   $8.00   50.0%    "
               "$80.00   $40.00\n"
               "                      10  $16.00            $160.00    $16.00   $8.00   50.0%   $"
               "160.00   $80.00\n",
               "");
}

static void a_column_of_discounts_is_left_out_where_there_are_none(void **state)
{
    (void)state;
    write_text("p.csv", "name,wood\nTray,5\n");
    /* 10 less 2% is 9.80; 4.80, 48% */
    expect_run(
        "groat price shop.rules p.csv --quantity 2,3", 0,
        "                           Price   Price  You keep  Profit          You keep  Profit\n"
        "Product  Sold at  Pieces    each  in all      each    each  Margin    in all  in all\n"
        "------------------------------------------------------------------------------------\n"
        "Tray     stall         2  $10.00  $20.00     $9.80   $4.80   48.0%    $19.60   $9.60\n"
        "                       3  $10.00  $30.00     $9.80   $4.80   48.0%    $29.40  $14.40\n",
        "");
}

/* A tax of 10% comes on top of what five and one cost; nothing of it is kept. */
static void what_the_buyer_adds_stands_with_what_each_piece_leaves(void **state)
{
    (void)state;
    write_text("b.rules", BULK "channel away { tax added 10% }\n");
    write_text("p.csv", "name,wood\nTray,20\n");
    expect_run(
        "groat price b.rules p.csv --channel away --quantity 1,5 | tail -2", 0,
        "Tray     away          1  $40.00             $40.00  $4.00  $40.00  $20.00   50.0%    "
        "$40.00  $20.00\n"
        "                       5  $38.00      5.0%  $190.00  $3.80  $38.00  $18.00   47.4%   "
        "$190.00  $90.00\n",
        "");
}

/* At 7.80 one leaves 7.80 - 1 - 3.90 = 2.90, which is refused; five at 7.41 leave 7.41 - 0.20 - 3.90
 * = 3.31; ten at 6.83 leave 6.83 - 0.10 - 3.90 = 2.83. The two products are two all the same. */
static void a_block_begins_with_its_first_break_that_is_not_refused(void **state)
{
    (void)state;
    write_text("b.rules", BULK);
    write_text("p.csv", "name,wood\nPeg,3.90\nPeg,3.90\n");
    expect_run("groat price b.rules p.csv --channel stall --quantity 1,5,10 | grep '^Peg'", 0,
               "Peg      stall         5  $7.41      5.0%  $37.05     $7.21   $3.31   44.7%    $3"
               "6.05  $16.55\n"
               "Peg      stall         5  $7.41      5.0%  $37.05     $7.21   $3.31   44.7%    $3"
               "6.05  $16.55\n",
               "p.csv:3: warning: Peg has the same name as line 2; explain, sweep and effect "
               "--since find products by name\n"
               "p.csv:2: Peg, stall, 1 piece: refused: leaves too little\n"
               "p.csv:2: Peg, stall, 10 pieces: refused: leaves too little\n"
               "p.csv:3: Peg, stall, 1 piece: refused: leaves too little\n"
               "p.csv:3: Peg, stall, 10 pieces: refused: leaves too little\n");
}

static void a_single_quantity_is_the_price_list(void **state)
{
    (void)state;
    write_text("b.rules", BULK);
    write_text("p.csv", "name,wood\nTray,20\n");
    expect_run(
        "groat price b.rules p.csv --quantity 5 --channel stall", 0,
        "Product  Sold at  Pieces  List price   Price   Fees  You keep    Cost  Profit  Margin"
        "  Take-home\n"
        "-------------------------------------------------------------------------------------"
        "-----------\n"
        "Tray     stall         5      $40.00  $38.00  $0.20    $37.80  $20.00  $17.80   46.8%"
        "     $17.80\n",
        "");
}

/* What other programs read has the same columns for one quantity and for several. */
static void csv_and_json_of_several_quantities_are_those_of_each(void **state)
{
    (void)state;
    write_text("b.rules", BULK);
    write_text("p.csv", "name,wood\nTray,20\n");
    expect_run("groat price b.rules p.csv --quantity 1,5 --format csv --channel stall", 0,
               HEADINGS ",notes\n"
                        "Tray,stall,1,40.00,40.00,1.00,0.00,39.00,20.00,19.00,0.4750,19.00,\n"
                        "Tray,stall,5,40.00,38.00,0.20,0.00,37.80,20.00,17.80,0.4684,17.80,\n",
               "");
    expect_run("groat price b.rules p.csv --quantity 1,5 --format json --channel stall | "
               "sed -n 's/.*\"quantity\": \\([0-9]*\\), \"list\": \"40.00\", \"price\": "
               "\\(\"[0-9.]*\"\\), \"fees\": .*\"take_home\": .*\"notes\": \\[\\]}.*/\\1 \\2/p'",
               0, "1 \"40.00\"\n5 \"38.00\"\n", "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(several_quantities_are_a_block_for_each_product_and_channel),
        TEST(a_column_of_discounts_is_left_out_where_there_are_none),
        TEST(what_the_buyer_adds_stands_with_what_each_piece_leaves),
        TEST(a_block_begins_with_its_first_break_that_is_not_refused),
        TEST(a_single_quantity_is_the_price_list),
        TEST(csv_and_json_of_several_quantities_are_those_of_each),
    };
    return RUN_TESTS("price breaks", tests);
}
