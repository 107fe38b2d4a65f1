#include "mend/phrases.h"

#include <stdio.h>
#include <string.h>

#include "text/money.h"

const struct phrase phrases[] = {
    /* how a price is chosen */
    {"^ aim SHARE", "aim margin >= SHARE"},
    {"^ aim margin of AMOUNT", "aim margin >= AMOUNT"},
    {"^ aim AMOUNT NAME", "aim NAME >= AMOUNT"},
    {"^ aim AMOUNT", "aim profit >= AMOUNT"},
    {"^ margin SHARE", "aim margin >= SHARE"},
    {"^ margin REST", "aim margin REST"},
    {"^ profit REST", "aim profit REST"},
    {"^ markup SHARE", "set cost marked up SHARE"},
    {"^ markup = SHARE", "set cost marked up SHARE"},
    {"^ markup of SHARE", "set cost marked up SHARE"},
    {"^ minimum order AMOUNT", "refuse \"the order is too small\" when price * quantity < AMOUNT"},
    {"marked up by", "marked up"},
    {"marked down by", "marked down"},
    {"+ SHARE", "marked up SHARE"},
    {"plus SHARE", "marked up SHARE"},
    {"plus NAME", "marked up NAME"},
    {"- SHARE", "marked down SHARE"},
    {"less SHARE", "marked down SHARE"},
    {"minus SHARE", "marked down SHARE"},
    {"margin of", "margin >="},
    {"profit of", "profit >="},
    {"NAME of AMOUNT", "NAME >= AMOUNT"},
    {"NAME AMOUNT", "NAME >= AMOUNT"},
    {"NAME rounded to REST", "NAME round to REST"},
    {"^ rounded REST", "round REST"},
    {"to the next", "to"},
    {"to the nearest", "to"},
    {"to next", "to"},
    {"to nearest", "to"},
    {"^ target REST", "aim REST"},
    {"^ goal REST", "aim REST"},
    {"^ at least REST", "floor REST"},
    {"^ minimum REST", "floor REST"},
    {"^ min REST", "floor REST"},
    {"^ maximum REST", "ceiling REST"},
    {"^ max REST", "ceiling REST"},
    {"^ cap REST", "ceiling REST"},
    {"^ price = REST", "set REST"},
    /* names that are taken */
    {"^ fee NAME = NAME", "fee NAME~_fee = NAME"},
    {"^ cost NAME = NAME", "cost NAME~_cost = NAME"},
    {"^ pay NAME = NAME", "pay NAME~_pay = NAME"},
    {"^ let NAME = NAME", "let NAME~_here = NAME"},
    {"^ buyer pays NAME = NAME", "buyer pays NAME~_charge = NAME"},
    {"^ buyer pays NAME per order", "buyer pays NAME~_charge = NAME per order"},
    {"^ channel NAME", "channel NAME~_2"},
    {"^ rate NAME", "rate NAME~_2"},
    {"^ refuse when REST", "refuse \"not for this price\" when REST"},
    {"^ refuse if REST", "refuse \"not for this price\" when REST"},
    {"^ warn when REST", "warn \"look at this price\" when REST"},
    {"^ warn if REST", "warn \"look at this price\" when REST"},
    /* currencies */
    {"^ currency pounds", "currency GBP \xC2\xA3"},
    {"^ currency pound", "currency GBP \xC2\xA3"},
    {"^ currency \xC2\xA3", "currency GBP \xC2\xA3"},
    {"^ currency gbp", "currency GBP \xC2\xA3"},
    {"^ currency dollars", "currency USD $"},
    {"^ currency dollar", "currency USD $"},
    {"^ currency $", "currency USD $"},
    {"^ currency usd", "currency USD $"},
    {"^ currency euros", "currency EUR \xE2\x82\xAC"},
    {"^ currency euro", "currency EUR \xE2\x82\xAC"},
    {"^ currency eur", "currency EUR \xE2\x82\xAC"},
    {"^ currency \xE2\x82\xAC", "currency EUR \xE2\x82\xAC"},
    /* fees and taxes */
    {"SHARE per order", "SHARE of paid per order"},
    {"SHARE", "SHARE of price"},
    {"AMOUNT SHARE", "AMOUNT + SHARE of price"},
    {"SHARE NAME", "SHARE of NAME"},
    {"^ commission SHARE", "fee commission = SHARE of price"},
    {"^ commission = SHARE", "fee commission = SHARE of price"},
    {"^ commission REST", "fee commission REST"},
    {"^ commission REST", "fee commission = REST"},
    {"^ shipping REST", "buyer pays shipping REST"},
    {"^ shipping REST", "buyer pays shipping = REST"},
    {"^ postage REST", "buyer pays shipping = REST"},
    {"^ vat REST", "tax REST"},
    {"^ VAT REST", "tax REST"},
    {"^ gst REST", "tax REST"},
    {"^ sales tax REST", "tax REST"},
    {"^ tax AMOUNT", "tax included AMOUNT"},
    {"^ tax = REST", "tax included REST"},
    {"^ fees REST", "fee REST"},
    {"^ charge REST", "fee REST"},
    {"^ buyer pays per order REST", "buyer pays shipping REST per order"},
    {"^ buyer pays NAME per order = REST", "buyer pays NAME = REST per order"},
    {"^ wage REST", "pay REST"},
    {"^ wages REST", "pay REST"},
    {"^ labour REST", "pay REST"},
    {"^ labor REST", "pay REST"},
    {"an order", "per order"},
    {"a order", "per order"},
    {"each order", "per order"},
    {"per sale", "per order"},
    {"a sale", "per order"},
    {"per transaction", "per order"},
    {"a piece", "each"},
    {"per piece", "each"},
    {"per item", "each"},
    /* comparisons and conditions */
    {"= >", ">="},
    {"=>", ">="},
    {"=<", "<="},
    {"==", "="},
    {":=", "="},
    {"\xE2\x89\xA5", ">="},
    {"\xE2\x89\xA4", "<="},
    {"is at least", ">="},
    {"is at most", "<="},
    {"is more than", ">"},
    {"is less than", "<"},
    {"is above", ">"},
    {"is below", "<"},
    {"no less than", ">="},
    {"no more than", "at most"},
    {"no more than", "<="},
    {"not more than", "at most"},
    {"more than", ">"},
    {"less than", "<"},
    {"at least", ">="},
    {"at most", "<="},
    {"is", "="},
    {"&", "and"},
    {"&&", "and"},
    {"||", "or"},
    {"if", "when"},
    {"where", "when"},
    {"unless", "when not"},
    {"^ only if REST", "only when REST"},
    {"^ if NAME REST", "refuse \"not for sale\" when NAME REST"},
    /* sums */
    {"NAME rounded up to AMOUNT", "(~NAME rounded up to AMOUNT~)"},
    {"NAME rounded to AMOUNT", "(~NAME rounded to AMOUNT~)"},
    {"x", "*"},
    {"X", "*"},
    {"times", "*"},
    {"\xC3\x97", "*"},
    {"\xC3\xB7", "/"},
    {"\xE2\x80\x93", "-"},
    {"divided by", "/"},
    {"plus", "+"},
    {"minus", "-"},
    {"max", "at most"},
    {"min", "at least"},
    {"maximum", "at most"},
    {"minimum", "at least"},
    {"capped at", "at most"},
    {"but at least", "at least"},
    {"but at most", "at most"},
    /* the rows of tables and ladders */
    {"^ under REST", "below REST"},
    {"^ less than REST", "below REST"},
    {"^ < REST", "below REST"},
    {"^ up to below REST", "below REST"},
    {"^ <= REST", "up to REST"},
    {"^ to REST", "up to REST"},
    {"^ until REST", "up to REST"},
    {"^ upto REST", "up to REST"},
    {"^ up to and including REST", "up to REST"},
    {"^ more than REST", "over REST"},
    {"^ above REST", "over REST"},
    {"^ > REST", "over REST"},
    {"^ from AMOUNT REST", "AMOUNT or more REST"},
    {"^ >= AMOUNT REST", "AMOUNT or more REST"},
    {"^ at least AMOUNT REST", "AMOUNT or more REST"},
    {"and over", "or more"},
    {"and more", "or more"},
    {"and up", "or more"},
    {"or over", "or more"},
    {"and above", "or more"},
    {"AMOUNT +", "AMOUNT or more"},
    {"AMOUNT - AMOUNT", "AMOUNT to AMOUNT"},
    {"^ else REST", "otherwise REST"},
    {"^ default REST", "otherwise REST"},
    {"^ rest REST", "otherwise REST"},
    {"^ anything else REST", "otherwise REST"},
    {"^ everything else REST", "otherwise REST"},
    {"else", "otherwise"},
    {"default", "otherwise"},
    {"<=", "up to"},
    {"ends with", "ends in"},
    {"ending in", "ends in"},
    {"^ always REST", "otherwise REST"},
    /* amounts and units */
    {"sq ft", "sqft"},
    {"square ft", "sqft"},
    {"square foot", "sqft"},
    {"square feet", "sqft"},
    {"sq in", "sqin"},
    {"square in", "sqin"},
    {"square inch", "sqin"},
    {"square inches", "sqin"},
    {"sq m", "sqm"},
    {"square metre", "sqm"},
    {"square metres", "sqm"},
    {"square meter", "sqm"},
    {"square meters", "sqm"},
    {"sq cm", "sqcm"},
    {"square cm", "sqcm"},
    {"board foot", "bf"},
    {"board feet", "bf"},
    {"an hour", "per h"},
    {"/ hour", "per h"},
    {"/ NAME", "per NAME"},
    {"a NAME", "per NAME"},
    {"NUMBER percent", "NUMBER~%"},
    {"NUMBER per cent", "NUMBER~%"},
    {"NUMBER pct", "NUMBER~%"},
    {"NUMBER %", "NUMBER~%"},
    {"NUMBER dollars", "MONEY"},
    {"NUMBER dollar", "MONEY"},
    {"NUMBER euros", "MONEY"},
    {"NUMBER euro", "MONEY"},
    {"NUMBER pounds", "MONEY"},
    {"NUMBER bucks", "MONEY"},
    {"$ NUMBER", "MONEY"},
    {"\xC2\xA3 NUMBER", "MONEY"},
    {"\xE2\x82\xAC NUMBER", "MONEY"},
    {"NUMBER \"", "NUMBER in"},
    {"NUMBER '", "NUMBER ft"},
    {"\xC2\xBD NAME", "1/2 NAME"},
    {"\xC2\xBC NAME", "1/4 NAME"},
    {"\xC2\xBE NAME", "3/4 NAME"},
    {"NUMBER \xC2\xBD", "NUMBER~-1/2"},
    {"NUMBER NUMBER / NUMBER \"", "NUMBER~-~NUMBER~/~NUMBER in"},
    {"NUMBER NUMBER / NUMBER", "NUMBER~-~NUMBER~/~NUMBER"},
    {"as NAME = NUMBER NUMBER / NUMBER", "as NAME = NUMBER~-~NUMBER~/~NUMBER NAME"},
    {"as NAME = NUMBER / NUMBER", "as NAME = NUMBER~/~NUMBER NAME"},
    {"NUMBER NUMBER", "NUMBER~NUMBER"},
    /* statements and types */
    {"^ const REST", "rate REST"},
    {"^ constant REST", "rate REST"},
    {"^ var REST", "let REST"},
    {"^ def REST", "let REST"},
    {"^ define REST", "let REST"},
    {"^ function REST", "let REST"},
    {"^ variable REST", "let REST"},
    {"^ import REST", "use REST"},
    {"^ include REST", "use REST"},
    {"^ column REST", "show REST"},
    {"^ warning REST", "warn REST"},
    {"^ reject REST", "refuse REST"},
    {"^ shop REST", "channel REST"},
    {"^ market REST", "channel REST"},
    {"NAME integer", "NAME count"},
    {"NAME int", "NAME count"},
    {"NAME whole", "NAME count"},
    {"NAME string", "NAME text"},
    {"NAME decimal", "NAME number"},
    {"NAME float", "NAME number"},
    {"NAME boolean", "NAME flag"},
    {"NAME bool", "NAME flag"},
    {"NAME percentage", "NAME percent"},
    {"NAME minutes", "NAME time as min"},
    {"NAME hours", "NAME time as h"},
    {"NAME weight", "NAME mass as g"},
    {"NAME price", "NAME money"},
    {"NAME currency", "NAME money"},
    {"default", "="},
    {"maybe", "optional"},
    {"nullable", "optional"},
    {"or empty", "optional"},
    {"required", ""},
    {"//", "#"},
};
const size_t phrases_count = sizeof phrases / sizeof *phrases;

const char *const phrases_words[] = {
    "added",    "aim",      "allowing", "and",       "any",     "area",      "as",      "at",
    "below",    "between",  "buyer",    "by",        "ceiling", "channel",   "cost",    "count",
    "currency", "date",     "discount", "down",      "each",    "else",      "ends",    "energy",
    "error",    "even",     "every",    "expect",    "extras",  "fee",       "fees",    "flag",
    "floor",    "from",     "gives",    "goal",      "has",     "if",        "in",      "included",
    "is",       "keep",     "least",    "length",    "let",     "likely",    "list",    "lost",
    "margin",   "marked",   "mass",     "materials", "missing", "money",     "more",    "most",
    "nearest",  "needs",    "net",      "no",        "none",    "not",       "number",  "of",
    "on",       "only",     "optional", "or",        "order",   "otherwise", "over",    "paid",
    "parts",    "pay",      "pays",     "per",       "percent", "pin",       "price",   "product",
    "profit",   "quantity", "rate",     "refuse",    "refused", "round",     "rounded", "rounding",
    "same",     "set",      "show",     "sliced",    "table",   "takes",     "tax",     "text",
    "then",     "time",     "to",       "unit",      "up",      "use",       "volume",  "warn",
    "warned",   "weighs",   "when",     "worth",     "yes",
};
const size_t phrases_words_count = sizeof phrases_words / sizeof *phrases_words;

/* ---- finding them ---- */

enum { SLOTS_MOST = 6 };

struct slot {
    const char *name;
    size_t name_length;
    size_t start, end;
    bool written; /* of several slots of a name, each is written once before the first again */
};

struct match {
    struct slot slots[SLOTS_MOST];
    size_t slots_count;
};

static bool is_word(const char *word, size_t length, const char *known)
{
    return strlen(known) == length && memcmp(word, known, length) == 0;
}

static bool is_sign_of_money(const struct pieces *pieces, size_t index)
{
    return index < pieces->count && pieces->items[index].kind == PIECE_SIGN &&
           (piece_is(pieces, index, "$") || (pieces->text[pieces->items[index].start] & 0x80));
}

/* The number of pieces that a slot takes at a piece; 0 if it does not fit. */
static size_t slot_takes(const struct pieces *pieces, size_t index, const char *word, size_t length)
{
    if (index >= pieces->count)
        return 0;
    enum piece_kind kind = pieces->items[index].kind;
    if (is_word(word, length, "NAME"))
        return kind == PIECE_WORD;
    if (is_word(word, length, "NUMBER"))
        return kind == PIECE_NUMBER;
    if (is_word(word, length, "SHARE"))
        return kind == PIECE_SHARE;
    if (is_word(word, length, "TEXT"))
        return kind == PIECE_TEXT;
    if (is_word(word, length, "REST"))
        return pieces->count - index;
    size_t taken = is_sign_of_money(pieces, index);
    if (index + taken >= pieces->count)
        return 0;
    kind = pieces->items[index + taken].kind;
    if (kind != PIECE_NUMBER && kind != PIECE_SHARE)
        return 0;
    taken++;
    bool unit = kind == PIECE_NUMBER && taken == 1 && index + taken < pieces->count &&
                pieces->items[index + taken].kind == PIECE_WORD &&
                pieces->items[index + taken].end - pieces->items[index + taken].start <= 5;
    return taken + unit;
}

static bool is_slot(const char *word, size_t length)
{
    static const char *const slots[] = {"NAME", "NUMBER", "SHARE", "TEXT", "REST", "AMOUNT"};
    for (size_t i = 0; i < sizeof slots / sizeof *slots; i++)
        if (is_word(word, length, slots[i]))
            return true;
    return false;
}

/* The number of pieces that the pattern takes; 0 if it does not stand there. */
static size_t pattern_takes(const char *pattern, const struct pieces *pieces, size_t index,
                            struct match *match)
{
    size_t at = index;
    for (const char *word = pattern; *word;) {
        size_t length = strcspn(word, " ");
        size_t taken;
        if (is_slot(word, length)) {
            taken = slot_takes(pieces, at, word, length);
            if (taken > 0 && match->slots_count < SLOTS_MOST)
                match->slots[match->slots_count++] =
                    (struct slot){word, length, pieces->items[at].start,
                                  pieces->items[at + taken - 1].end, false};
        } else {
            const struct piece *piece = &pieces->items[at];
            taken = at < pieces->count && piece->end - piece->start == length &&
                    memcmp(pieces->text + piece->start, word, length) == 0;
        }
        if (taken == 0)
            return 0;
        at += taken;
        word += length;
        word += *word == ' ';
    }
    return at - index;
}

/* A text being written; what does not fit makes it useless. */
struct writing {
    char *buffer;
    size_t size, length;
};

static void put(struct writing *writing, const char *text, size_t length)
{
    for (size_t i = 0; i < length && writing->length < writing->size; i++)
        writing->buffer[writing->length++] = text[i];
}

/* The number that was found, as the shop writes its money. */
static void put_money(struct writing *writing, const struct pieces *pieces,
                      const struct match *match, const char *sign)
{
    char digits[40], money[64];
    for (size_t i = 0; i < match->slots_count; i++) {
        const struct slot *slot = &match->slots[i];
        if (!is_word(slot->name, slot->name_length, "NUMBER"))
            continue;
        snprintf(digits, sizeof digits, "%.*s", (int)(slot->end - slot->start),
                 pieces->text + slot->start);
        text_money(money, sizeof money, sign, digits);
        put(writing, money, strlen(money));
    }
}

static void put_word(struct writing *writing, const char *word, size_t length,
                     const struct pieces *pieces, struct match *match, const char *sign)
{
    struct slot *found = NULL;
    for (size_t i = 0; i < match->slots_count && (!found || found->written); i++) {
        struct slot *slot = &match->slots[i];
        if (slot->name_length == length && memcmp(slot->name, word, length) == 0 &&
            (!found || !slot->written))
            found = slot;
    }
    if (found) {
        put(writing, pieces->text + found->start, found->end - found->start);
        found->written = true;
        return;
    }
    if (is_word(word, length, "MONEY"))
        put_money(writing, pieces, match, sign);
    else
        put(writing, word, length);
}

bool phrase_at(const struct phrase *phrase, const struct pieces *pieces, size_t index,
               const char *sign, char *buffer, size_t size, size_t *from, size_t *to)
{
    const char *pattern = phrase->pattern;
    if (*pattern == '^') {
        if (index != 0)
            return false;
        pattern += 2;
    }
    struct match match = {.slots_count = 0};
    size_t taken = pattern_takes(pattern, pieces, index, &match);
    if (taken == 0)
        return false;
    struct writing writing = {buffer, size, 0};
    for (const char *word = phrase->instead; *word;) {
        size_t length = strcspn(word, " ~");
        put_word(&writing, word, length, pieces, &match, sign);
        word += length;
        put(&writing, " ", *word == ' ');
        word += *word != '\0';
    }
    if (writing.length >= size)
        return false;
    buffer[writing.length] = '\0';
    *from = pieces->items[index].start;
    *to = pieces->items[index + taken - 1].end;
    return true;
}
