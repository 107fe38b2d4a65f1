/* The table of verbs. */
#include "command/verb.h"

/* Those of every verb that reads a product sheet and prints a list. */
#define LIST_OPTIONS                                                                               \
    (OPTION_CHANNEL | OPTION_QUANTITY | OPTION_SET | OPTION_AS_OF | OPTION_FORMAT |                \
     OPTION_OUTPUT | OPTION_DECIMAL | OPTION_FROM)

const struct verb verbs[] = {
    {"check", "read a rules file, and run its expects", false, OPTION_COMPILED,
     "Reads the rules, reports every error and warning, and runs the expects. Errors and\n"
     "warnings go to standard error; a summary line goes to standard output.\n"
     "--compiled prints the compiled rules, for work on Groat itself: each step with its operation\n"
     "and what it reads, then tables, ladders, searches and channels. This form may change.\n"
     "Exit status: 0 all is well; 1 an expect failed; 2 the rules are wrong.\n",
     "  groat check rules/fernhollow/fernhollow.rules\n", verb_check},
    {"price", "the price list: every product on every channel", true,
     LIST_OPTIONS | OPTION_ESTIMATES,
     "Prices every product of the sheet on every channel, in the order of the sheet. PRODUCTS is\n"
     "a .csv, .tsv, .json or .ndjson file, or - for standard input with --from. A product that\n"
     "is refused or has an error is left out of the list and named on standard error.\n"
     "\n"
     "list is your own price for one, before discount; price is what one piece costs this buyer;\n"
     "fees are what the channel takes; keep is what is left after tax and fees; profit is keep\n"
     "less cost; margin is its share of the price without tax; take_home is profit and own pay.\n"
     "Then come the columns that the rules show, and the notes. All figures are for one piece. A\n"
     "table leaves out columns that would say nothing: list if it equals the price, fees and tax\n"
     "if there are none.\n"
     "\n"
     "With several quantities, a table shows price breaks instead: for each product and channel,\n"
     "a line for each quantity, with the price of one piece, the discount, and the price of the\n"
     "order; then what it leaves you, for each piece and in all. The amounts in all are\n"
     "calculated from amounts that are not rounded. --format csv and json, and --estimates, keep\n"
     "the columns above.\n"
     "\n"
     "Amounts in --format csv have the currency's decimals and no sign; margin is a plain\n"
     "number. Amounts in --format json are exact texts: decimal if 18 decimals or fewer are\n"
     "enough, otherwise \"top/bottom\"; a value that a product does not have is null.\n"
     "\n"
     "A cell, a rate or a default may be a range, such as '$4 to $6 likely $4.50'; it counts as\n"
     "its likely value, or as its midpoint if none is given. --estimates adds how far each row\n"
     "may vary: price_lowest and price_highest are the lowest and the highest price that any\n"
     "combination of the ends gives. All combinations are priced, each exactly as in this list,\n"
     "for up to 10 ranges that affect a row, which make 1024; a row with more has no estimates,\n"
     "and a message names its ranges. Only ends are combined: if the rules change direction\n"
     "inside a range, at a row of a table or at a cap, a price in between can lie outside.\n"
     "cost_mean, in a table the expected cost, is the three-point mean of the cost, lowest plus\n"
     "four times likely plus highest, over six (PERT's). In a table, May be is empty if the\n"
     "price cannot vary. Nothing is random. A row without ranges has its own price and cost\n"
     "there.\n"
     "\n"
     "Exit status: 0 all priced; 1 some were refused or had an error, the others are printed;\n"
     "2 the command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --channel stall --set hourly='$24 to $30 per h' --estimates\n"
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --channel stall --quantity 1,5 --set hourly='$27 per h' --format csv\n",
     verb_price},
    {"explain", "one price, line by line, and why it is not lower", true,
     LIST_OPTIONS | OPTION_PRODUCT | OPTION_NAME,
     "Explains the price of a product: what one piece costs, what the buyer pays, what comes\n"
     "off, what is left, and why the next lower allowed price would not do. Each line has its\n"
     "amount, its expression with numbers in it, and its place in the rules; below it are the\n"
     "cost of each material in it and any values that are the likely value of a range. With\n"
     "--name, only that figure and those that it is made of are explained; you can also give the\n"
     "heading of a column, such as 'You keep'. --format is table, which is a text for a person\n"
     "here, or json.\n"
     "\n"
     "Exit status: 0 explained; 1 refused, or there is no price, which is explained as far as it "
     "goes;\n"
     "2 the command line, the rules or the sheet are wrong, or it could not be written.\n",
     "  groat explain rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --product 'Nest box' --channel stall\n"
     "  groat explain rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --product 'Nest box' --channel stall --name machine_hour\n",
     verb_explain},
    {"effect", "what a change does to every price: before, after, and a summary", true,
     LIST_OPTIONS | OPTION_AGAINST | OPTION_SINCE | OPTION_HOLD,
     "Compares every price before a change with the price after it. The change is one of:\n"
     "  --set RATE=VALUE   the rules as they are, and with those rates\n"
     "  --against OTHER    the rules, and other rules; --set is then about the other\n"
     "  --since LIST.csv   a list that groat price printed, and the rules now, or with --set\n"
     "\n"
     "Channels of the same name are compared, and each side reads the sheet with its own fields.\n"
     "A list is compared by product, channel and quantity, at its own quantities unless\n"
     "--quantity gives others. What is sold on one side only, or is refused, has a row without\n"
     "the other price, and its notes say why. percent is the change as a share of the price\n"
     "before.\n"
     "\n"
     "A table shows the prices that change or have new notes, and a summary below them. The\n"
     "typical change is the median and the average change is the mean, both calculated\n"
     "separately for money and for percents, over all rows that have both prices, including\n"
     "unchanged ones. The largest change is the largest in money, up or down. Prices refused\n"
     "before and after are counted in the summary and have no row. --format csv has all rows and\n"
     "no sums; --format json is {\"rows\": [...], \"summary\": {...}}.\n"
     "\n"
     "--hold 3% keeps a ticket at its old price if the new list price differs from the old one\n"
     "by at most 3%, even if the old price is not on the ladder. A ticket is not kept if its aim\n"
     "no longer holds at the old list price; so where an aim decides the price, only falls are\n"
     "held. Nor is it kept if the old price is below the floor or above the ceiling, if the\n"
     "rules refuse it, if the new price is pinned, or if the discount is different. Notes say\n"
     "why. A ticket that changed by more has a note only if it is close: up to 3.75% for 3%.\n"
     "\n"
     "Exit status: 0 fine; 1 some prices are refused or have an error after the change, the\n"
     "others are printed; 2 the command line, the rules, the sheet or the list are wrong, or it\n"
     "could not be written.\n",
     "  groat effect rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --set hourly=+2% --set pitch_day='$72'\n"
     "  groat effect rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --set ply_price=-5% --hold 3% --channel stall --format csv\n",
     verb_effect},
    {"goals", "how many sales until a goal is reached, best first", true,
     OPTION_CHANNEL | OPTION_SET | OPTION_AS_OF | OPTION_FORMAT | OPTION_OUTPUT | OPTION_DECIMAL |
         OPTION_FROM | OPTION_GOAL | OPTION_PACE,
     "Answers the goals of the rules: for each goal, every product on every channel, best first,\n"
     "as if you sold nothing else. Each sale is an order of one piece.\n"
     "\n"
     "gives is what one sale puts towards the goal. sales is how many it takes, rounded up. For a\n"
     "goal per time (needs $500 per month) it is how many a month, and sales_per_week how many a\n"
     "week, not rounded; for another goal, weeks is sales by --pace, not rounded. If the goal has\n"
     "a limit (takes, has), sales_allowed is how many sales fit into it, not rounded (a table\n"
     "shows one decimal), and brings is what they would give, both per month if the goal is per\n"
     "time. suffices is yes if that is exactly enough or more, and otherwise no; price_needed is\n"
     "then the least price on your ladder that would be enough, even above the ceiling. suffices\n"
     "is never if a sale gives nothing. A week is 7 days, a month a twelfth of 365.2425 days.\n"
     "\n"
     "The product that needs the fewest sales comes first or, for a goal per time with a limit,\n"
     "the one that can bring the most. If a line of the goal has no value for a product, the\n"
     "goal is not answered for it, and its row says so. A product that is refused or has an\n"
     "error is left out of the list and named on standard error.\n"
     "\n"
     "Exit status: 0 all answered; 1 a product was left out; 2 the command line, the rules or the\n"
     "sheet are wrong, there is no goal, or the list could not be written.\n",
     "  groat goals rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv --pace 3\n"
     "  groat goals rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --goal 'an income in winter' --channel stall --format csv\n",
     verb_goals},
    {"rank", "where to sell: each product's channels side by side, best first", true,
     LIST_OPTIONS | OPTION_BY,
     "Ranks the channels of each product by the profit of one piece or, with --by, by another\n"
     "figure. The highest value comes first, whatever the figure is: the first by cost is the\n"
     "dearest to make. Equal values share a place.\n"
     "\n"
     "gap is the difference from the first place. A price that meets its aim comes before one\n"
     "that is held to its ceiling. After these, without a place, come channels that have no such\n"
     "figure, then those where the price is refused or missing, with the reason. A channel that\n"
     "does not sell the product has no row. Several quantities are ranked separately, the\n"
     "smallest first.\n"
     "\n"
     "A time, a length or a weight is in seconds, millimetres or grams, unless it is a show of\n"
     "the rules, which gives it a unit. Below a table is a count of how often each channel comes\n"
     "first.\n"
     "\n"
     "Exit status: 0 all ranked; 1 some were refused or had an error, the others are ranked; 2\n"
     "the command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat rank rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat rank rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --by earned_per_hour --format csv\n",
     verb_rank},
    {"earn", "what a price that you name leaves you on each channel", true,
     LIST_OPTIONS | OPTION_AT,
     "Works out what a price that you name leaves you: one price for all products with --at\n"
     "'$45', or each product's own with --at and the heading of a column of the sheet, which the\n"
     "rules need not use. A product without a price in that column is left out and named on\n"
     "standard error. The price need not be on a ladder; it is the price of one piece in an\n"
     "order of --quantity.\n"
     "\n"
     "no_loss is the break-even price, the lowest price at which you lose nothing there; floor\n"
     "and ceiling are the rules' limits for the list price; position is where the price lies\n"
     "between them, 0 at the floor and 1 at the ceiling. A table gives these three in words.\n"
     "Notes say whether the price meets your aim, and what the rules warn of. If the rules give\n"
     "a discount for several pieces, the aim is checked for one piece. A price that the rules\n"
     "refuse has a row too, with the reason as a note.\n"
     "\n"
     "Exit status: 0 all worked out; 1 some are refused at that price, or had an error; 2 the\n"
     "command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat earn rules/methods/hourly_stall.rules rules/methods/hourly_stall.csv --at '$30'\n"
     "  groat earn rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --at 'dearest seen' --channel stall --channel gallery\n",
     verb_earn},
    {"tidy", "lay out a rules file neatly", false,
     OPTION_CHECK | OPTION_WRITE | OPTION_OUTPUT | TAKES_SEVERAL,
     "Prints the rules in the standard layout: four spaces for each level, single spaces, and\n"
     "neighbouring lines aligned in columns. Words, comments and line breaks stay as they are,\n"
     "so the meaning does not change. Files brought in with use are not read. With --write, the\n"
     "file is replaced; with --check, it is only named if it is not tidy. Both accept several\n"
     "files. A file that cannot be read as rules stays as it is, and its errors go to standard\n"
     "error.\n"
     "\n"
     "Exit status: 0 tidied, or tidy already; 1 with --check, a file is not tidy; 2 the command\n"
     "line is wrong, or a file could not be read or written.\n",
     "  groat tidy rules/fernhollow/fernhollow.rules\n"
     "  groat tidy --check rules/ladders.rules rules/fernhollow/fernhollow.rules\n",
     verb_tidy},
    {"sweep", "how every price changes as a rate goes from one value to another", true,
     LIST_OPTIONS | OPTION_PRODUCT | OPTION_OVER | OPTION_STEPS | OPTION_CHART,
     "Changes one rate in equal, exact steps, and prices every product at each value, as that\n"
     "many runs of groat price with --set would.\n"
     "\n"
     "For one product (--product, or a sheet of one) a table shows the prices of each channel as\n"
     "steps, with the values of the rate for which each price holds, what you keep, and the\n"
     "profit at the first and at the last of these values. For several products it has a row for\n"
     "each channel: the price at both ends, how often it changes between them, and a strip that\n"
     "shows its rise from left to right. A step between two values is drawn half-way between\n"
     "them.\n"
     "\n"
     "--format csv and json have a row for every value: value is the rate as a plain number, in\n"
     "the unit of the first value of --over ($20 per h: 20; 15%: 15), or in the unit of the\n"
     "rules if that is a change; csv has at most six decimals of it, json all. A value without a\n"
     "price has a row too, and its notes say why. --chart draws a panel for each product, up to\n"
     "24, with up to 8 lines. The end of a line says from where on there is no price; hatching\n"
     "shows where no line has a price.\n"
     "\n"
     "Exit status: 0 all priced; 1 some values were refused or had an error, or some products;\n"
     "2 the command line, the rules or the sheet are wrong, or it could not be written.\n",
     "  groat sweep rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --over hourly='$20 per h..$30 per h' --product 'Nest box' --channel stall\n"
     "  groat sweep rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --over timber_price=-10%..+10% --steps 41 --channel gallery --format csv\n",
     verb_sweep},
    {"drivers", "which rate moves prices most", true,
     LIST_OPTIONS | OPTION_PRODUCT | OPTION_BY_PERCENT | OPTION_EACH | OPTION_CHART |
         READS_UNROUNDED,
     "Raises each rate and each material's price by 1%, or by --by, one at a time, and compares\n"
     "the prices with the present ones. Prices are compared before rounding and without ladders,\n"
     "so that a small change shows; ceilings and pins still apply. A rate from which others are\n"
     "calculated changes these too.\n"
     "\n"
     "For each rate it shows the mean change over all products, channels and quantities,\n"
     "including prices that do not change, and the largest change, with its product and channel.\n"
     "The rate with the largest mean comes first. A hatched bar marks a price that falls. With\n"
     "--each, it shows for every price the rates that change it, the largest change first.\n"
     "\n"
     "Percentages in --format csv and json are plain numbers, as margin is: 0.0043 is 0.43%.\n"
     "moved is how many of the prices counted in prices change. A rate of zero cannot be raised\n"
     "by a percentage, so it has no figures, and its notes say so. --chart draws the means as\n"
     "bars.\n"
     "\n"
     "Exit status: 0 all priced; 1 some prices were refused or had an error, and are left out;\n"
     "2 the command line, the rules or the sheet are wrong, or it could not be written.\n",
     "  groat drivers rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat drivers rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --by 5% --each --product 'Nest box' --channel stall\n",
     verb_drivers},
};
const size_t verbs_count = sizeof verbs / sizeof *verbs;
