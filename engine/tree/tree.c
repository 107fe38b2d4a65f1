#include "tree/tree.h"

#include <assert.h>

const char *statement_word(enum statement_kind kind)
{
    static const char *const words[] = {
        [STATEMENT_CURRENCY] = "currency",
        [STATEMENT_UNIT] = "unit",
        [STATEMENT_USE] = "use",
        [STATEMENT_MATERIALS] = "materials",
        [STATEMENT_MATERIAL] = "material",
        [STATEMENT_PRODUCT] = "product",
        [STATEMENT_FIELD] = "field",
        [STATEMENT_ROUNDING] = "rounding",
        [STATEMENT_BAND] = "band",
        [STATEMENT_TABLE] = "table",
        [STATEMENT_ROW] = "row",
        [STATEMENT_CHANNEL] = "channel",
        [STATEMENT_SAME_PRICE] = "same price on",
        [STATEMENT_GOAL] = "goal",
        [STATEMENT_NEEDS] = "needs",
        [STATEMENT_GIVES] = "gives",
        [STATEMENT_TAKES] = "takes",
        [STATEMENT_HAS] = "has",
        [STATEMENT_EXPECT] = "expect",
        [STATEMENT_GIVEN] = "given value",
        [STATEMENT_ON] = "on",
        [STATEMENT_THEN] = "then",
        [STATEMENT_THEN_REFUSED] = "then refused",
        [STATEMENT_THEN_WARNED] = "then warned",
        [STATEMENT_THEN_ERROR] = "then error",
        [STATEMENT_PRICE] = "price",
        [STATEMENT_AIM] = "aim",
        [STATEMENT_SET] = "set",
        [STATEMENT_FLOOR] = "floor",
        [STATEMENT_CEILING] = "ceiling",
        [STATEMENT_DISCOUNT] = "discount",
        [STATEMENT_PIN] = "pin",
        [STATEMENT_ROUND] = "round",
        [STATEMENT_RATE] = "rate",
        [STATEMENT_LET] = "let",
        [STATEMENT_COST] = "cost",
        [STATEMENT_PAY] = "pay",
        [STATEMENT_FEE] = "fee",
        [STATEMENT_BUYER_PAYS] = "buyer pays",
        [STATEMENT_TAX_ADDED] = "tax",
        [STATEMENT_TAX_INCLUDED] = "tax",
        [STATEMENT_SHOW] = "show",
        [STATEMENT_WARN] = "warn",
        [STATEMENT_REFUSE] = "refuse",
        [STATEMENT_ONLY_WHEN] = "only when",
    };
    assert((size_t)kind < sizeof words / sizeof *words && words[kind]);
    return words[kind];
}
