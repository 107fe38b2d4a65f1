/* The table of verbs. */
#include "command/verb.h"

/* Those of every verb that reads a product sheet and prints a list. */
#define LIST_OPTIONS                                                                               \
    (OPTION_CHANNEL | OPTION_QUANTITY | OPTION_SET | OPTION_AS_OF | OPTION_FORMAT |                \
     OPTION_OUTPUT | OPTION_DECIMAL | OPTION_FROM)

const struct verb verbs[] = {
    {"check", "read a rules file, and run its expects", false, 0,
     "Reads the rules, says everything that is wrong with them, and runs the expects.\n"
     "Errors and warnings go to standard error; a line that sums up goes to standard output.\n"
     "Exit status: 0 all is well; 1 an expect failed; 2 the rules are wrong.\n",
     "  groat check rules/fernhollow/fernhollow.rules\n", verb_check},
    {"price", "the price list: every product on every channel", true,
     LIST_OPTIONS | OPTION_ESTIMATES,
     "Prices every product of the sheet on every channel, in the order of the sheet.\n"
     "PRODUCTS is a .csv, .tsv, .json or .ndjson file, or - for standard input with --from.\n"
     "A product that is refused, or that has an error, is left out and named on standard error.\n"
     "\n"
     "list is your own price for one, before discount; price is what one piece costs this buyer;\n"
     "fees are what the channel takes; keep is what is left after tax and fees; profit is keep\n"
     "less cost; margin is its share of the price without tax; take_home is profit and own pay.\n"
     "Then come what the rules show, and notes. All is for one piece. A table leaves out a column\n"
     "that says nothing: list where it is the price, fees and tax where there are none.\n"
     "\n"
     "A table of several quantities shows price breaks instead: for each product and channel a "
     "line\n"
     "for each quantity, with the price of one piece, what is off the list price, and the price "
     "of\n"
     "the order; then what it leaves, for each piece and in all. In all is worked out from "
     "amounts\n"
     "that are not rounded. --format csv and json, and --estimates, keep the columns above.\n"
     "\n"
     "Amounts in --format csv have the currency's decimals and no sign; margin is a plain number.\n"
     "Amounts in --format json are exact texts: in decimals where at most 18 say it, otherwise\n"
     "\"top/bottom\"; what a product does not have is null.\n"
     "\n"
     "A cell, a rate or a default may be a range, such as '$4 to $6 likely $4.50'; it counts as "
     "its\n"
     "likely value, or else the middle. --estimates adds what each row may come to: price_lowest\n"
     "and price_highest are the lowest and the highest price that any combination of the ends\n"
     "gives. All combinations are priced, each exactly as this list would, for up to 10 ranges "
     "that\n"
     "bear on a row, which are 1024; a row with more has no estimates, and says which they are.\n"
     "Only ends are combined: where the rules turn within a range, at a row of a table or at a "
     "cap,\n"
     "a price in between can lie outside. cost_mean, in a table the expected cost, is the\n"
     "three-point mean of the cost, lowest plus four times likely plus highest, over six\n"
     "(PERT's). A table is\n"
     "empty under May be where the price can be nothing else. Nothing is random. A row without\n"
     "ranges has its own price and cost there.\n"
     "\n"
     "Exit status: 0 all priced; 1 some were refused or had an error, the others are printed;\n"
     "2 the command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --channel stall --set hourly='$24 to $30 per h' --estimates\n"
     "  groat price rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --channel stall --quantity 1,5 --set hourly='$27 per h' --format csv\n",
     verb_price},
    {"explain", "one price, line by line, and why it is not a coin less", true,
     LIST_OPTIONS | OPTION_PRODUCT | OPTION_NAME,
     "Says where the price of a product comes from: what one piece costs, what the buyer pays, "
     "what\n"
     "comes off, what is left, and what stands against the next lower allowed price. Each line "
     "has\n"
     "its amount, its expression with the numbers in it, and its place in the rules; below it "
     "stand\n"
     "what each material of it costs, and values that are the likely one of a range.\n"
     "With --name: where that one figure comes from, and what it is made of; a heading of a list,\n"
     "'You keep', is understood too.\n"
     "--format is table, which is a text for a person here, or json.\n"
     "\n"
     "Exit status: 0 explained; 1 refused, or there is no price, which is explained as far as it "
     "goes;\n"
     "2 the command line, the rules or the sheet are wrong, or it could not be written.\n",
     "  groat explain rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --product 'Nest box' --channel stall\n"
     "  groat explain rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --product 'Nest box' --channel stall --name machine_hour\n",
     verb_explain},
    {"effect", "what a change does to every price: was, now, and what it comes to", true,
     LIST_OPTIONS | OPTION_AGAINST | OPTION_SINCE | OPTION_HOLD,
     "Puts every price before a change beside the price after it. The change is one of:\n"
     "  --set RATE=VALUE   the rules as they are, and with those rates\n"
     "  --against OTHER    the rules, and other rules; --set is then about the other\n"
     "  --since LIST.csv   a list that groat price printed, and the rules now, or with --set\n"
     "\n"
     "Channels of the same name are compared, and each side reads the sheet under its own\n"
     "fields. A list is compared by product, channel and quantity, at its own quantities unless\n"
     "--quantity says others. What is sold on one side only, or refused, has a row without the\n"
     "other price, and its notes say why. percent is the change as a share of the price before.\n"
     "\n"
     "A table shows the prices that change or have something new to say, and below them the\n"
     "sums. The typical change is the middle one (the median), the average change the mean, each\n"
     "of the money and, for itself, of the percents; both are over all rows that have both\n"
     "prices, also those that stay. The largest change is that of most money, up or down.\n"
     "What is refused as before is counted there and has no row.\n"
     "--format csv has all rows and no sums; --format json is {\"rows\": [...], \"summary\":\n"
     "{...}}.\n"
     "\n"
     "--hold 3% keeps a ticket at its old price while the new list price is at most 3% of the\n"
     "old one away from it; the ladder is not asked. It is not kept where the aim does not hold\n"
     "at the old list price any more, so that where an aim makes the price it is falls that are\n"
     "held. Nor is it kept below the floor or above the ceiling, where the rules refuse the old\n"
     "price, where the new one is pinned, or where the discount is another. Notes say which;\n"
     "one that is too far off has a note only where that is hard to see, up to 3.75% for 3%.\n"
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
     "Answers the goals of the rules: for each one, every product on every channel as if it were\n"
     "all you sell, one piece an order, best first. Each sale is one such order.\n"
     "\n"
     "gives is what one sale puts towards the goal. sales is how many it takes, rounded up. Of a\n"
     "goal per time (needs $500 per month) it is how many a month, and sales_per_week how many a\n"
     "week, not rounded; of another goal, weeks is sales by --pace, not rounded.\n"
     "Where the goal has a limit (takes, has), sales_allowed is how many sales it has room for,\n"
     "not rounded (a table shows one decimal), and brings what all those would give, both a\n"
     "month's if the goal is per time.\n"
     "suffices is yes if that is enough, exactly, and no if not; price_needed is then the least\n"
     "price on your ladder that would do, whatever the ceiling. It is never if a sale gives "
     "nothing.\n"
     "A week is 7 days, a month a twelfth of 365.2425 days.\n"
     "\n"
     "First comes what takes the fewest sales; of a goal per time with a limit, what can bring "
     "the\n"
     "most. A goal that lacks a line for a product is not answered, and its row says so. A "
     "product\n"
     "that is refused, or that has an error, is left out and named on standard error.\n"
     "\n"
     "Exit status: 0 all answered; 1 a product was left out; 2 the command line, the rules or the\n"
     "sheet are wrong, there is no goal, or the list could not be written.\n",
     "  groat goals rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv --pace 3\n"
     "  groat goals rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --goal 'an income in winter' --channel stall --format csv\n",
     verb_goals},
    {"rank", "where to sell: each product's channels side by side, best first", true,
     LIST_OPTIONS | OPTION_BY,
     "Puts the channels of each product in order, best first by the profit of one piece, or with\n"
     "--by by another figure. The greatest comes first, whatever the figure is: the first by\n"
     "cost is the dearest to make. Equal values share a place.\n"
     "\n"
     "gap is how far a place is behind the first. A price that meets its aim comes before one\n"
     "that is held to its ceiling. After these, without a place, comes what has no such figure,\n"
     "then what is refused or has no price, with the reason. Where a product is not sold it has\n"
     "no row. Several quantities are ranked each for itself, the smallest first.\n"
     "\n"
     "A time, a length or a weight is in seconds, millimetres or grams, unless it is a show of\n"
     "the rules, which gives it a unit. Below a table stands how often each channel comes first.\n"
     "\n"
     "Exit status: 0 all ranked; 1 some were refused or had an error, the others are ranked; 2\n"
     "the command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat rank rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat rank rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --by earned_per_hour --format csv\n",
     verb_rank},
    {"earn", "the other way round: what a price you name leaves on each channel", true,
     LIST_OPTIONS | OPTION_AT,
     "Works out what is left of a price that you name: one for all with --at '$45', or each\n"
     "product's own with --at and the heading of a column of the sheet, which need not be one\n"
     "that the rules read. A product without a price there is left out and named on standard\n"
     "error. The price need not be on a ladder; it is what one piece costs in an order of that\n"
     "many.\n"
     "\n"
     "no_loss is the lowest price that loses nothing there, the break-even price; floor and "
     "ceiling are the rules'\n"
     "limits for the list price; position is how far the price is on the way from the one to\n"
     "the other, 0 at the floor and 1 at the ceiling. A table says these three in words. Notes\n"
     "say whether that price meets your aim, and what the rules warn of. The aim looks at one\n"
     "piece where a discount is taken off for more. What the rules refuse is\n"
     "there too, with the reason as a note.\n"
     "\n"
     "Exit status: 0 all worked out; 1 some are refused at that price, or had an error; 2 the\n"
     "command line, the rules or the sheet are wrong, or the list could not be written.\n",
     "  groat earn rules/methods/hourly_stall.rules rules/methods/hourly_stall.csv --at '$30'\n"
     "  groat earn rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --at 'dearest seen' --channel stall --channel gallery\n",
     verb_earn},
    {"tidy", "set out a rules file in the one layout", false,
     OPTION_CHECK | OPTION_WRITE | OPTION_OUTPUT | TAKES_SEVERAL,
     "Prints the rules with their lines set out in one way: four spaces a level, single spaces,\n"
     "neighbouring lines in columns. Words, comments and line breaks stay as they are, so the "
     "rules\n"
     "mean what they meant. What they use is not looked at.\n"
     "With --write the file itself is replaced, and with --check only named if it is not tidy; "
     "both\n"
     "take several files. A file that cannot be read as rules stays as it is, and its errors go "
     "to\n"
     "standard error.\n"
     "\n"
     "Exit status: 0 tidied, or tidy already; 1 with --check, a file is not tidy; 2 the command\n"
     "line is wrong, or a file could not be read or written.\n",
     "  groat tidy rules/fernhollow/fernhollow.rules\n"
     "  groat tidy --check rules/ladders.rules rules/fernhollow/fernhollow.rules\n",
     verb_tidy},
    {"sweep", "every price while a rate goes from one value to another", true,
     LIST_OPTIONS | OPTION_PRODUCT | OPTION_OVER | OPTION_STEPS | OPTION_CHART,
     "Moves one rate in even, exact steps, and prices every product at each of them: the same as\n"
     "that many runs of groat price with --set.\n"
     "\n"
     "Of one product (--product, or a sheet of one) a table shows each channel as steps, with the\n"
     "values of the rate for which a price holds, what you keep, and the profit at the first and\n"
     "at the last of them. Of many products it has a row for each channel: the price at both\n"
     "ends, how often it changes between them, and its rise as a strip from left to right.\n"
     "Between two values that were tried a step is drawn half-way.\n"
     "\n"
     "--format csv and json have a row for every value: value is the rate as a plain number, in\n"
     "the unit that --over begins with ($20 per h: 20; 15%: 15), or that the rules use where it\n"
     "begins with a change; csv has at most six decimals of it, json all of it. A value without a\n"
     "price has a row too, and says why in its notes.\n"
     "--chart draws a panel for each product, up to 24, with up to 8 lines. A line that ends says\n"
     "from where on it has no price; what is hatched is where nothing has one.\n"
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
     "Raises one rate after the other by 1%, or by what --by says, materials too, and compares\n"
     "the prices with what they are now. So that a small change shows at all, the prices are\n"
     "those before rounding, on no ladder; a ceiling or a pin still holds them.\n"
     "A rate that others are worked out from moves these too.\n"
     "\n"
     "For each rate: the mean of what it changes, over all products, channels and quantities,\n"
     "also those that it leaves as they are, and the largest change, with its product and "
     "channel;\n"
     "the rate with the largest mean is first. A hatched bar is a fall. With --each: for every "
     "price the rates that move it, the largest\n"
     "change first.\n"
     "\n"
     "Percentages in --format csv and json are plain numbers, as margin is: 0.0043 is 0.43%.\n"
     "moved counts the prices that change, of those in prices. A rate of zero cannot be raised by "
     "a\n"
     "percentage: it has no figures, and its notes say so.\n"
     "--chart draws the means as bars.\n"
     "\n"
     "Exit status: 0 all priced; 1 some prices were refused or had an error, and are left out;\n"
     "2 the command line, the rules or the sheet are wrong, or it could not be written.\n",
     "  groat drivers rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv\n"
     "  groat drivers rules/fernhollow/fernhollow.rules rules/fernhollow/products.csv \\\n"
     "      --by 5% --each --product 'Nest box' --channel stall\n",
     verb_drivers},
};
const size_t verbs_count = sizeof verbs / sizeof *verbs;
