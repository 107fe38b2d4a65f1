/* The names of what the public interface counts. */
#include "library/library.h"

/* The function that names the values of an enum, with its table. */
#define NAMES(type, ...)                                                                           \
    const char *groat_##type##_name(groat_##type value)                                            \
    {                                                                                              \
        static const char *const names[] = {__VA_ARGS__};                                          \
        return (size_t)value < sizeof names / sizeof *names ? names[value] : NULL;                 \
    }

NAMES(status, [GROAT_OK] = "ok", [GROAT_BAD_VALUE] = "bad value", [GROAT_NO_MEMORY] = "no memory")
NAMES(trouble_kind, [GROAT_TROUBLE_NONE] = "none", [GROAT_TROUBLE_NO_MEMORY] = "no memory",
      [GROAT_TROUBLE_NOT_TEXT] = "not text", [GROAT_TROUBLE_FORM] = "form",
      [GROAT_TROUBLE_EMPTY] = "empty", [GROAT_TROUBLE_NO_UNIT] = "no unit",
      [GROAT_TROUBLE_UNKNOWN_UNIT] = "unknown unit",
      [GROAT_TROUBLE_AMBIGUOUS_UNIT] = "ambiguous unit", [GROAT_TROUBLE_OTHER_KIND] = "other kind",
      [GROAT_TROUBLE_DOUBTFUL_MARK] = "doubtful mark", [GROAT_TROUBLE_NEGATIVE] = "negative",
      [GROAT_TROUBLE_NOT_WHOLE] = "not whole", [GROAT_TROUBLE_TOO_LARGE] = "too large",
      [GROAT_TROUBLE_RANGE] = "range", [GROAT_TROUBLE_UNKNOWN_NAME] = "unknown name",
      [GROAT_TROUBLE_RULES] = "rules", [GROAT_TROUBLE_CALL] = "call")
NAMES(help, [GROAT_HELP_NONE] = "none", [GROAT_HELP_VALUE] = "value",
      [GROAT_HELP_EXAMPLE] = "example", [GROAT_HELP_ADVICE] = "advice",
      [GROAT_HELP_CHOICE] = "choice", [GROAT_HELP_ELSEWHERE] = "elsewhere")
NAMES(severity, [GROAT_ERROR] = "error", [GROAT_WARNING] = "warning")
NAMES(kind, [GROAT_KIND_NUMBER] = "number", [GROAT_KIND_MONEY] = "money",
      [GROAT_KIND_QUANTITY] = "quantity", [GROAT_KIND_TEXT] = "text", [GROAT_KIND_FLAG] = "flag",
      [GROAT_KIND_DATE] = "date", [GROAT_KIND_PARTS] = "parts")
NAMES(unit_kind, [GROAT_UNIT_NONE] = "none", [GROAT_UNIT_MONEY] = "money",
      [GROAT_UNIT_MONEY_PER] = "money per", [GROAT_UNIT_PERCENT] = "percent",
      [GROAT_UNIT_MEASURE] = "measure")
NAMES(presence, [GROAT_MISSING] = "missing", [GROAT_THERE] = "there", [GROAT_NO_VALUE] = "no value",
      [GROAT_UNKNOWN] = "unknown")
NAMES(end, [GROAT_LOW] = "low", [GROAT_LIKELY] = "likely", [GROAT_HIGH] = "high")
NAMES(outcome, [GROAT_PRICED] = "priced", [GROAT_NOT_SOLD] = "not sold",
      [GROAT_REFUSED] = "refused", [GROAT_FAILED] = "failed")
NAMES(reason, [GROAT_REASON_NONE] = "none", [GROAT_REASON_RULES] = "rules",
      [GROAT_REASON_CALL] = "call", [GROAT_REASON_ORDER] = "order",
      [GROAT_REASON_REQUIRED] = "required", [GROAT_REASON_NO_DATE] = "no date",
      [GROAT_REASON_NO_PRICE] = "no price", [GROAT_REASON_NOT_A_PRICE] = "not a price",
      [GROAT_REASON_NO_VALUE] = "no value", [GROAT_REASON_NO_ROW] = "no row",
      [GROAT_REASON_LIMIT] = "limit", [GROAT_REASON_NO_MEMORY] = "no memory")
NAMES(figure, [GROAT_LIST] = "list", [GROAT_PRICE] = "price", [GROAT_EXTRAS] = "extras",
      [GROAT_TAX] = "tax", [GROAT_PAID] = "paid", [GROAT_NET] = "net", [GROAT_FEES] = "fees",
      [GROAT_KEEP] = "keep", [GROAT_COST] = "cost", [GROAT_PAY] = "pay", [GROAT_PROFIT] = "profit",
      [GROAT_MARGIN] = "margin", [GROAT_TAKE_HOME] = "take_home", [GROAT_FLOOR] = "floor",
      [GROAT_CEILING] = "ceiling")
NAMES(footing, [GROAT_ON_NOTHING] = "nothing", [GROAT_ON_AIM] = "aim", [GROAT_ON_SET] = "set",
      [GROAT_ON_FLOOR] = "floor", [GROAT_ON_CEILING] = "ceiling", [GROAT_ON_PIN] = "pin",
      [GROAT_ON_GIVEN] = "given")
NAMES(aim, [GROAT_AIM_NONE] = "none", [GROAT_AIM_MET] = "met", [GROAT_AIM_MISSED] = "missed",
      [GROAT_AIM_UNKNOWN] = "unknown")
NAMES(goal_line, [GROAT_NEEDS] = "needs", [GROAT_GIVES] = "gives", [GROAT_TAKES] = "takes",
      [GROAT_HAS] = "has")
NAMES(part, [GROAT_PART_COST] = "cost", [GROAT_PART_BUYER] = "buyer", [GROAT_PART_TAKEN] = "taken",
      [GROAT_PART_FIGURE] = "figure", [GROAT_PART_RULE] = "rule", [GROAT_PART_SHOW] = "show",
      [GROAT_PART_NAME] = "name", [GROAT_PART_DETAIL] = "detail")
