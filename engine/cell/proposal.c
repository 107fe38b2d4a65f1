#include "cell/proposal.h"

#include <stdio.h>
#include <string.h>

#include "cell/habits.h"
#include "cell/plain.h"
#include "text/near.h"
#include "text/utf8.h"
#include "types/propose.h"
#include "unit/currency.h"

/* Longer cells are no slips; what is proposed must fit into a message. */
#define TEXT_MOST 100

struct proposing {
    struct cell_reader *reader;
    const struct cell_wanted *wanted;
    const char *text; /* closed by a zero byte */
    const char *near;
    const char *found; /* the first attempt that could be read */
};

/* ---- pieces of a text ---- */

/* The length of a number at `at`: digits with signs between them that divide or begin decimals. */
static size_t number_length(const char *at)
{
    size_t length = 0;
    if ((at[0] == '.' || at[0] == ',') && text_is_digit(at[1]))
        length = 1;
    while (text_is_digit(at[length]) ||
           (length > 0 && strchr(".,_", at[length]) && at[length] && text_is_digit(at[length + 1])))
        length++;
    return length;
}

/* The next number in a text, or its end. */
static const char *next_number(const char *at)
{
    while (*at && number_length(at) == 0)
        at++;
    return at;
}

static size_t count_numbers(const char *text)
{
    size_t count = 0;
    for (const char *at = next_number(text); *at; at = next_number(at + number_length(at)))
        count++;
    return count;
}

static size_t word_length(const char *at)
{
    size_t length = 0;
    while (text_is_letter(at[length]))
        length++;
    return length;
}

static const char *next_word(const char *at)
{
    while (*at && !text_is_letter(*at))
        at++;
    return at;
}

static const char *after_spaces(const char *at)
{
    while (*at == ' ')
        at++;
    return at;
}

static const char *piece(struct proposing *proposing, const char *text, size_t length)
{
    return arena_print(proposing->reader->arena, "%.*s", (int)length, text);
}

/* Whether the candidate is new and can be read; it is then what was found. */
static bool attempt(struct proposing *proposing, const char *candidate)
{
    if (!candidate || strcmp(candidate, proposing->text) == 0 ||
        !cell_reads(proposing->reader, proposing->wanted, candidate))
        return false;
    proposing->found = candidate;
    return true;
}

/* ---- what stands around a number ---- */

/* The text behind a word or sign for `about`; the text itself where it begins with none. */
static const char *without_about(const char *text)
{
    const char *at = text + habit_about_sign(text);
    if (habit_is(HABIT_ABOUT, text, word_length(text)))
        at += word_length(text) + (text[word_length(text)] == '.');
    return at > text ? after_spaces(at) : at;
}

/* `kr. 650` for `kr. 650,-`: a dash that stands for no decimals keeps no place beside a word. */
static const char *without_dash(struct proposing *proposing, const char *text)
{
    const char *number = next_number(text), *end = number + number_length(number);
    bool dash = *number && (*end == ',' || *end == '.') && end[1] == '-' && !text_is_digit(end[2]);
    return dash ? arena_print(proposing->reader->arena, "%.*s%s", (int)(end - text), text, end + 2)
                : text;
}

/* ---- ranges ---- */

/* The length of what may stand for `to` at `at`. */
static size_t dash_length(const char *at)
{
    static const char *const dashes[] = {"\xE2\x80\x93", "\xE2\x80\x94", "\xE2\x80\xA6", "..", "-"};
    for (size_t i = 0; i < sizeof dashes / sizeof *dashes; i++)
        if (strncmp(at, dashes[i], strlen(dashes[i])) == 0)
            return strlen(dashes[i]);
    return 0;
}

/* `$2 to $3` for `$2–$3`. */
static const char *as_range(struct proposing *proposing)
{
    const char *text = proposing->text, *first = next_number(text);
    const char *at = first;
    while (*at && dash_length(at) == 0)
        at++;
    const char *end = at + (*at ? dash_length(at) : 0);
    if (!*at || at <= first || !*next_number(end))
        return NULL;
    size_t before = (size_t)(at - text);
    while (before > 0 && text[before - 1] == ' ')
        before--;
    return arena_print(proposing->reader->arena, "%.*s to %s", (int)before, text,
                       after_spaces(end));
}

/* ---- percentages ---- */

/* `0.065` as `6.5`, and `8` as it stands: a number below one was meant as a part of one. */
static const char *percent_digits(struct proposing *proposing, const char *digits, size_t length)
{
    const char *mark = memchr(digits, '.', length);
    mark = mark ? mark : memchr(digits, ',', length);
    bool below_one = mark != NULL && strcspn(digits, "123456789") > (size_t)(mark - digits);
    if (!below_one || strcspn(digits, "123456789") >= length)
        return piece(proposing, digits, length);
    const char *end = digits + length, *decimals = mark + 1;
    while (end > decimals && end[-1] == '0')
        end--;
    size_t count = (size_t)(end - decimals);
    char two[3] = {decimals[0], count > 1 ? decimals[1] : '0', '\0'};
    const char *whole = two[0] == '0' ? two + 1 : two;
    return count <= 2 ? arena_print(proposing->reader->arena, "%s", whole)
                      : arena_print(proposing->reader->arena, "%s%c%.*s", whole, *mark,
                                    (int)(count - 2), decimals + 2);
}

/* Each number with its sign. */
static const char *with_percents(struct proposing *proposing, const char *text)
{
    struct arena *arena = proposing->reader->arena;
    const char *made = "", *at = text;
    while (*at) {
        const char *number = next_number(at);
        size_t length = number_length(number);
        if (length == 0)
            break;
        const char *sign = after_spaces(number + length);
        bool word = word_length(sign) == 7 && strncmp(sign, "percent", 7) == 0;
        bool there = *sign == '%' || word;
        made = arena_print(arena, "%s%.*s%s%%", made, (int)(number - at), at,
                           there ? piece(proposing, number, length)
                                 : percent_digits(proposing, number, length));
        at = there ? sign + (word ? 7 : 1) : number + length;
    }
    return arena_print(arena, "%s%s", made, at);
}

/* ---- amounts ---- */

/* Whether a word is how people write money, ours or another's. */
static bool is_money_word(const struct proposing *proposing, const char *word, size_t length)
{
    const struct statement *currency = proposing->reader->program->shop->currency;
    const char *symbol = currency ? currency->symbol.text : NULL;
    return habit_is(HABIT_MONEY, word, length) ||
           (length == 3 && currency_decimals(word, 3) >= 0) ||
           (symbol && strlen(symbol) == length && memcmp(symbol, word, length) == 0);
}

/* Whether the text is one number with nothing but signs and words of money. */
static bool is_plain_amount(const struct proposing *proposing)
{
    const char *text = proposing->text;
    if (count_numbers(text) != 1 || strchr(text, '%') || strchr(text, '-') || strchr(text, '/'))
        return false;
    for (const char *at = next_word(text); *at; at = next_word(at + word_length(at)))
        if (!is_money_word(proposing, at, word_length(at)))
            return false;
    return true;
}

/* The rules' own way of writing amounts, without touching what belongs to them. */
static struct shop shop_of(const struct proposing *proposing)
{
    struct shop shop = *proposing->reader->program->shop;
    shop.arena = proposing->reader->arena;
    return shop;
}

/* `h` behind `/`, `per`, `an` or `a`; NULL when nothing is. */
static const char *unit_below(struct proposing *proposing)
{
    const char *text = proposing->text;
    const char *slash = strchr(text, '/');
    const char *unit = slash ? next_word(slash) : text + strlen(text);
    for (const char *at = next_word(text); *at && !slash; at = next_word(at + word_length(at)))
        if (habit_is(HABIT_PER, at, word_length(at)))
            unit = next_word(at + word_length(at));
    if (!*unit)
        return NULL;
    const char *word = piece(proposing, unit, word_length(unit));
    const char *ours = propose_unit_for(word);
    return ours ? ours : word;
}

/* The number that is there, as money by itself or per something. */
static bool as_money(struct proposing *proposing, const char *digits)
{
    struct arena *arena = proposing->reader->arena;
    const struct cell_wanted *wanted = proposing->wanted;
    struct shop shop = shop_of(proposing);
    const char *money = propose_money(&shop, digits), *below = unit_below(proposing);
    bool alone = is_plain_amount(proposing);
    if (dim_is_money(wanted->type.dimension))
        return alone && attempt(proposing, money);
    if (below && attempt(proposing, arena_print(arena, "%s per %s", money, below)))
        return true;
    if (alone && wanted->unit &&
        attempt(proposing, arena_print(arena, "%s %s", money, wanted->unit)))
        return true;
    return alone && attempt(proposing, propose_amount(&shop, digits, wanted->type));
}

/* Decimals as the rules have them, `310.50` for `310,50`; not where a comma may be for
 * thousands. */
static const char *with_points(struct proposing *proposing, const char *text)
{
    char *made = arena_text(proposing->reader->arena, text, strlen(text));
    for (char *at = made; *at; at++) {
        if (*at != ',' || !text_is_digit(at[1]))
            continue;
        if (strspn(at + 1, "0123456789") == 3)
            return text;
        *at = '.';
    }
    return made;
}

/* `1 h 30 min` for `1h30`. */
static bool as_hours(struct proposing *proposing)
{
    const char *first = next_number(proposing->text), *word = next_word(first);
    const char *second = next_number(word);
    const char *after = next_word(second);
    bool hours =
        *word == 'h' && *second && first == proposing->text && (*after == 'm' || *after == '\0');
    if (!hours || count_numbers(proposing->text) != 2)
        return false;
    return attempt(proposing, arena_print(proposing->reader->arena, "%.*s h %.*s min",
                                          (int)number_length(first), first,
                                          (int)number_length(second), second));
}

/* The number with the unit that its word may mean, or where it has none with the field's own. */
static bool as_quantity(struct proposing *proposing, const char *digits)
{
    struct arena *arena = proposing->reader->arena;
    const struct cell_wanted *wanted = proposing->wanted;
    struct shop shop = shop_of(proposing);
    const char *word = next_word(next_number(proposing->text));
    const char *written = piece(proposing, word, word_length(word));
    const char *ours = propose_unit_for(written);
    bool minutes = (strcmp(written, "m") == 0 || strcmp(written, "M") == 0) &&
                   dim_equal(wanted->type.dimension, dim_base(DIM_TIME));
    const struct familiar_unit *familiar =
        familiar_for(proposing->reader->program, wanted->type.dimension);
    const char *own = wanted->unit ? wanted->unit : familiar ? familiar->text : NULL;
    bool bare = strcmp(digits, proposing->text) == 0;
    const char *const units[] = {ours, *proposing->near ? proposing->near : NULL,
                                 minutes ? "min" : NULL, bare ? own : NULL};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++)
        if (units[i] && attempt(proposing, arena_print(arena, "%s %s", digits, units[i])))
            return true;
    return bare && attempt(proposing, propose_amount(&shop, digits, wanted->type));
}

/* A plain number, without the sign or the word that makes it something else. */
static bool as_number(struct proposing *proposing, const char *digits)
{
    const char *word = next_word(proposing->text);
    bool counted = *word && !*next_word(word + word_length(word)) &&
                   habit_is(HABIT_PIECES, word, word_length(word));
    return (is_plain_amount(proposing) || counted) && attempt(proposing, digits);
}

static bool propose_range(struct proposing *proposing, const char *range)
{
    struct arena *arena = proposing->reader->arena;
    const struct cell_wanted *wanted = proposing->wanted;
    const char *low = next_number(range); /* the likely one where the middle is not whole */
    return attempt(proposing, range) ||
           (wanted->percent && attempt(proposing, with_percents(proposing, range))) ||
           attempt(proposing,
                   arena_print(arena, "%s %s", range, wanted->unit ? wanted->unit : "")) ||
           (wanted->count && attempt(proposing, arena_print(arena, "%s likely %.*s", range,
                                                            (int)number_length(low), low)));
}

static bool propose_number_there(struct proposing *proposing)
{
    const char *text = proposing->text, *range = as_range(proposing);
    bool percent = proposing->wanted->percent;
    struct dimension dimension = proposing->wanted->type.dimension;
    if (range ? propose_range(proposing, range)
              : percent && attempt(proposing, with_percents(proposing, text)))
        return true;
    if (dim_equal(dimension, dim_base(DIM_TIME)) && as_hours(proposing))
        return true;
    if (percent || count_numbers(text) != 1 || text[0] == '-' || text[0] == '+')
        return false;
    const char *number = next_number(text);
    const char *digits = piece(proposing, number, number_length(number));
    if (dimension.power[DIM_MONEY] == 1)
        return as_money(proposing, digits);
    return dim_is_none(dimension) ? as_number(proposing, digits) : as_quantity(proposing, digits);
}

/* The text as the rules would write it, by itself or in the field's unit. */
static bool propose_plain(struct proposing *proposing)
{
    struct arena *arena = proposing->reader->arena;
    const struct cell_wanted *wanted = proposing->wanted;
    struct shop shop = shop_of(proposing);
    const char *plain = plain_text(arena, proposing->text, wanted->type.dimension);
    const struct familiar_unit *familiar =
        familiar_for(proposing->reader->program, wanted->type.dimension);
    const char *unit = wanted->unit ? wanted->unit
                       : familiar   ? familiar->text
                                    : propose_unit(&shop, wanted->type.dimension);
    if (attempt(proposing, plain) ||
        (unit && attempt(proposing, arena_print(arena, "%s %s", plain, unit))))
        return true;
    proposing->text = plain;
    return propose_number_there(proposing);
}

static bool propose_number(struct proposing *proposing)
{
    const char *text = without_about(proposing->text);
    bool rate = proposing->wanted->rate;
    if (rate || !proposing->reader->decimal_comma)
        text = with_points(proposing, text);
    if (attempt(proposing, text))
        return true;
    bool money = proposing->wanted->type.dimension.power[DIM_MONEY] == 1;
    proposing->text = money ? without_dash(proposing, text) : text;
    if (rate)
        return propose_number_there(proposing);
    bool fraction = strchr(text, '/') != NULL; /* `1-3/4` could be read as a range */
    return (!fraction && propose_number_there(proposing)) || propose_plain(proposing);
}

/* ---- parts ---- */

const struct rate_code *cell_material_like(const struct program *program, const char *name)
{
    struct near near = near_to(name, strlen(name));
    const struct symbol *found = shop_find(program->shop, NO_CHANNEL, name);
    if (!found || found->kind != SYMBOL_MATERIAL) {
        for (size_t i = 0; i < program->rates_count; i++)
            if (program->rates[i].symbol->kind == SYMBOL_MATERIAL)
                near_offer(&near, program->rates[i].symbol->name);
        found = near.best ? shop_find(program->shop, NO_CHANNEL, near.best) : NULL;
    }
    return found ? &program->rates[found->order] : NULL;
}

/* Whether the number says more than what the material's price is for: 450 where it is per 10 kg. */
static bool is_more_than_bought(struct proposing *proposing, const struct symbol *material,
                                const char *digits)
{
    const struct expression *price = material->statement->value;
    if (price->kind == EXPRESSION_RANGE)
        price = price->right;
    const char *texts[] = {digits, price->name.text ? price->name.text : "1"};
    struct num numbers[2];
    for (size_t i = 0; i < 2; i++)
        if (num_read_decimal(proposing->reader->heap, texts[i], strlen(texts[i]), &numbers[i]) !=
            NUM_OK)
            return false;
    return num_compare(numbers[0], numbers[1]) > 0;
}

/* The unit that a bare number of the material may be in: the one that it is bought by, or where one
 * piece would take more than is bought at a time, the next smaller. */
static const char *unit_of_part(struct proposing *proposing, const struct symbol *material,
                                const char *digits)
{
    static const char *const smaller[][2] = {{"kg", "g"}, {"l", "ml"}, {"lb", "oz"}};
    if (!material->unit || !material->unit->per)
        return "";
    const char *unit = material->unit->per;
    for (size_t i = 0; i < sizeof smaller / sizeof *smaller; i++)
        if (strcmp(unit, smaller[i][0]) == 0 && is_more_than_bought(proposing, material, digits))
            return smaller[i][1];
    return unit;
}

/* One part with its material first, and with a unit where none stands. */
static const char *mended_part(struct proposing *proposing, const char *part)
{
    struct arena *arena = proposing->reader->arena;
    const char *number = next_number(part), *name = number > part ? part : part + strlen(part);
    name = next_word(name);
    if (number == part) /* `0.3 bf maple`: the last word */
        for (const char *at = next_word(part); *at; at = next_word(at + word_length(at)))
            name = at;
    if (!*name || !*number)
        return NULL;
    const struct rate_code *material =
        cell_material_like(proposing->reader->program, piece(proposing, name, word_length(name)));
    if (!material)
        return NULL;
    const char *end = number == part ? name : part + strlen(part);
    while (end > number && end[-1] == ' ')
        end--;
    bool bare = (size_t)(end - number) == number_length(number);
    const char *below = "";
    if (bare)
        below = unit_of_part(proposing, material->symbol,
                             piece(proposing, number, number_length(number)));
    return arena_print(arena, "%s %.*s%s%s", material->symbol->name, (int)(end - number), number,
                       *below ? " " : "", below);
}

/* Whether a material is named behind an amount: another part begins there. */
static bool begins_part(struct proposing *proposing, const char *text, const char *at)
{
    size_t length = word_length(at);
    if (at == text || at[-1] != ' ' || length == 0 || next_number(text) >= at)
        return false;
    const char *word = piece(proposing, at, length);
    const struct rate_code *material = cell_material_like(proposing->reader->program, word);
    return material && strcmp(material->symbol->name, word) == 0;
}

/* The length of what divides parts at the place. */
static size_t divider_length(const char *at)
{
    if (*at == '+' || *at == ';' || *at == '&' || (*at == ',' && !text_is_digit(at[1])))
        return 1;
    return strncmp(at, " and ", 5) == 0 ? 5 : 0;
}

static bool propose_parts_of(struct proposing *proposing, const char *text, bool by_names)
{
    struct arena *arena = proposing->reader->arena;
    const char *made = NULL, *at = text;
    for (;;) {
        at = after_spaces(at);
        const char *end = at;
        while (*end && divider_length(end) == 0 &&
               !(by_names && end > at && begins_part(proposing, text, end)))
            end++;
        const char *part = mended_part(proposing, piece(proposing, at, (size_t)(end - at)));
        if (!part)
            return false;
        made = made ? arena_print(arena, "%s + %s", made, part) : part;
        if (!*end)
            return attempt(proposing, made);
        at = end + divider_length(end);
    }
}

static bool propose_parts(struct proposing *proposing)
{
    const char *text = proposing->text;
    return propose_parts_of(proposing, text, false) || propose_parts_of(proposing, text, true) ||
           propose_parts_of(proposing, plain_words(proposing->reader->arena, text), true);
}

/* ---- flags and dates ---- */

static bool propose_flag(struct proposing *proposing)
{
    size_t length = strlen(proposing->text);
    if (habit_is(HABIT_YES, proposing->text, length))
        return attempt(proposing, "yes");
    return habit_is(HABIT_NO, proposing->text, length) && attempt(proposing, "no");
}

/* The day that `31.1.2027`, `1/31/2027` or `2027-1-31` can only be; not what `1/2/2027` may be. */
static bool propose_date(struct proposing *proposing)
{
    int parts[3] = {0}, digits[3] = {0}, count = 0;
    const char *text = proposing->text;
    for (; *text && count < 3; text++) {
        if (text_is_digit(*text) && ++digits[count] <= 4)
            parts[count] = parts[count] * 10 + (*text - '0');
        else if (strchr("./-", *text))
            count++;
        else
            return false;
    }
    bool year_first = digits[0] == 4, points = strchr(proposing->text, '.') != NULL;
    bool day_first = points || parts[0] > 12;
    if (*text || count != 2 || (!year_first && (digits[2] != 4 || (!day_first && parts[1] <= 12))))
        return false;
    int year = parts[year_first ? 0 : 2];
    int month = year_first || day_first ? parts[1] : parts[0];
    int day = year_first ? parts[2] : day_first ? parts[0] : parts[1];
    return attempt(proposing,
                   arena_print(proposing->reader->arena, "%04d-%02d-%02d", year, month, day));
}

/* ---- all of it ---- */

const char *cell_proposal(struct cell_reader *reader, const struct cell_wanted *wanted,
                          const char *text, size_t length, const char *near)
{
    if (length > TEXT_MOST || memchr(text, '\0', length))
        return NULL;
    struct proposing proposing = {.reader = reader,
                                  .wanted = wanted,
                                  .text = arena_text(reader->arena, text, length),
                                  .near = near};
    switch (wanted->type.kind) {
    case TYPE_NUMBER: propose_number(&proposing); break;
    case TYPE_PARTS: propose_parts(&proposing); break;
    case TYPE_FLAG: propose_flag(&proposing); break;
    case TYPE_DATE: propose_date(&proposing); break;
    default: break;
    }
    return proposing.found;
}
