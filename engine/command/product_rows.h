/* What the two files about products have in common: products.c knows the sheet and its headings,
 * product_rows.c reads its rows. Private to them. */
#ifndef GROAT_COMMAND_PRODUCT_ROWS_H
#define GROAT_COMMAND_PRODUCT_ROWS_H

#include "command/file.h"
#include "command/headings.h"
#include "command/labels.h"
#include "command/products.h"

struct products {
    const char *name; /* of the file, in messages */
    const groat_method *method;
    struct sheet *sheet;
    struct headings headings;
    size_t label_column; /* or SIZE_MAX */
    size_t asked_column; /* that --at names; or SIZE_MAX */
    const char *asked_name;
    int64_t asked; /* the price that --at asks about; 0: there is none */
    bool decimal_comma;
    size_t doubts;      /* cells whose comma, or point, may divide thousands or begin decimals */
    size_t doubts_rows; /* so far they are counted */
    bool quiet;         /* says nothing about rows */
    bool borrowed;      /* the sheet is another's */
    bool shared;        /* the headings are another's too, who says the messages */
    bool open;          /* more rows may come */
    bool broken;
    bool unsaid; /* of the headings nothing was said, as later rows may add some */
    struct incoming incoming;
    struct labels labels; /* of a sheet that is longer than a block */
    size_t twice;         /* names that were there before */
    struct tally *tally;
    struct telling telling;
    char label[32];
    char place[512];
    char wrong[512]; /* what is first wrong with the row that was filled in last; or empty */
};

/* An absent cell, or one of a column that is not there, has no start. */
static inline groat_text product_cell(const struct products *products, size_t row, size_t column)
{
    struct sheet_text cell = sheet_cell(products->sheet, row, column);
    return (groat_text){cell.start, cell.length};
}

/* Whether cells of a row can be read; otherwise says why not. */
bool product_row_is_fine(struct products *products, size_t row);

#endif
