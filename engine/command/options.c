#define _POSIX_C_SOURCE 200809L
#include "command/options.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "command/places.h"
#include "command/say.h"
#include "study/crew.h"
#include "study/sweep.h"
#include "text/near.h"
#include "text/utf8.h"

/* ---- what each option does with its value ---- */

/* Adds the names of a list with commas between them: no name of a channel or a column holds one. */
static bool add_names(const char ***list, size_t *list_count, const char *option, const char *value)
{
    size_t count = 1;
    for (const char *at = value; *at; at++)
        count += *at == ',';
    const char **names = realloc(*list, (*list_count + count) * sizeof *names);
    *list = names ? names : *list;
    for (const char *at = value; names && count > 0; count--) {
        size_t length = strcspn(at, ",");
        char *name = strndup(at, length);
        if (!name)
            break;
        names[(*list_count)++] = name;
        if (length == 0) {
            say("groat: %s needs names with commas between them, not %s", option, value);
            return false;
        }
        at += length + 1;
    }
    if (count > 0)
        say_no_memory();
    return count == 0;
}

static void free_names(const char **list, size_t count)
{
    for (size_t i = 0; i < count; i++)
        free((char *)list[i]);
    free(list);
}

static bool take_channel(struct request *request, const char *value)
{
    return add_names(&request->channels, &request->channels_count, "--channel", value);
}

static bool take_columns(struct request *request, const char *value)
{
    return add_names(&request->columns, &request->columns_count, "--columns", value);
}

static bool add_quantity(struct request *request, int64_t quantity)
{
    for (size_t i = 0; i < request->quantities_count; i++)
        if (request->quantities[i] == quantity)
            return true;
    if (request->quantities_count == QUANTITIES_MOST) {
        say("groat: --quantity may have at most %d quantities", QUANTITIES_MOST);
        return false;
    }
    request->quantities[request->quantities_count++] = quantity;
    return true;
}

/* Reads a whole number of 1 or more that a text begins with. Returns what is behind it, or NULL. */
static const char *read_whole(const char *text, int64_t *whole)
{
    char *end;
    errno = 0;
    *whole = strtoll(text, &end, 10);
    return text_is_digit(*text) && errno == 0 && *whole >= 1 ? end : NULL;
}

static bool take_quantity(struct request *request, const char *value)
{
    const char *at = value;
    for (;;) {
        int64_t quantity;
        const char *end = read_whole(at, &quantity);
        if (!end || (*end != ',' && *end != '\0')) {
            say("groat: --quantity needs whole numbers of 1 or more, not %s", value);
            say_try("for example --quantity 1,5,20");
            return false;
        }
        if (!add_quantity(request, quantity))
            return false;
        if (*end == '\0')
            return true;
        at = end + 1;
    }
}

/* A copy of an argument, cut in two at its first `=`: the rate's name and its value. The name is
 * NULL if the argument is not such a pair. */
static groat_rate_value cut_rate(const char *argument)
{
    char *text = strdup(argument);
    char *sign = text ? strchr(text, '=') : NULL;
    if (!sign || sign == text || sign[1] == '\0') {
        free(text);
        return (groat_rate_value){0};
    }
    *sign = '\0';
    return (groat_rate_value){.rate = text, .value = sign + 1};
}

static bool take_set(struct request *request, const char *value)
{
    groat_rate_value set = cut_rate(value);
    if (set.rate) {
        request->sets[request->sets_count++] = set;
        return true;
    }
    say("groat: --set needs a rate and its value, not %s", value);
    say_try("for example --set hourly='$27 per h'");
    return false;
}

/* `hourly=$20 per h..$30 per h`: a rate, from where and to where. */
static bool take_over(struct request *request, const char *value)
{
    groat_rate_value over = cut_rate(value);
    char *dots = over.rate ? strstr(over.value, "..") : NULL;
    free((char *)request->over.rate);
    request->over = over;
    if (dots && dots != over.value && dots[2] != '\0') {
        *dots = '\0';
        request->over.toward = dots + 2;
        return true;
    }
    say("groat: --over needs a rate with its first and last value, not %s", value);
    say_try("for example --over hourly='$20 per h..$30 per h'");
    return false;
}

static bool take_steps(struct request *request, const char *value)
{
    int64_t steps;
    const char *end = read_whole(value, &steps);
    request->steps = (size_t)steps;
    if (end && *end == '\0' && steps >= SWEEP_POINTS_LEAST && steps <= SWEEP_POINTS_MOST)
        return true;
    say("groat: --steps needs a whole number from %d to %d, not %s", SWEEP_POINTS_LEAST,
        SWEEP_POINTS_MOST, value);
    return false;
}

static bool take_jobs(struct request *request, const char *value)
{
    int64_t jobs;
    const char *end = read_whole(value, &jobs);
    request->jobs = (size_t)jobs;
    if (end && *end == '\0' && jobs <= CREW_MOST)
        return true;
    say("groat: --jobs needs a whole number from 1 to %d, not %s", CREW_MOST, value);
    return false;
}

static bool take_as_of(struct request *request, const char *value)
{
    if (!groat_date_valid(value)) {
        say("groat: --as-of needs a date, not %s", value);
        say_try("for example --as-of 2027-01-31");
        return false;
    }
    request->as_of = value;
    return true;
}

static bool take_format(struct request *request, const char *value)
{
    request->format_given = listing_form_of_word(value, &request->format);
    if (!request->format_given)
        say("groat: --format must be table, csv, json or ndjson, not %s", value);
    return request->format_given;
}

static bool take_decimal(struct request *request, const char *value)
{
    request->decimal_comma = strcmp(value, "comma") == 0;
    if (request->decimal_comma || strcmp(value, "point") == 0)
        return true;
    say("groat: --decimal must be comma or point, not %s", value);
    return false;
}

static bool take_from(struct request *request, const char *value)
{
    request->from_given = sheet_form_of_word(value, &request->from);
    if (!request->from_given)
        say("groat: --from must be csv, tsv, json or ndjson, not %s", value);
    return request->from_given;
}

/* ---- the table of options ---- */

struct option {
    const char *name;
    const char *argument; /* what its value is called; NULL: it takes none */
    uint64_t bit;
    bool (*take)(struct request *request, const char *value);
    size_t place; /* without `take`: of the text or, where it takes no value, of the flag */
    const char *help;
};
#define TAKEN(take) take, 0
#define STORED(member) NULL, offsetof(struct request, member)

static const struct option options[] = {
    {"--currency", "CODE", OPTION_CURRENCY, STORED(currency),
     "the currency of the amounts, by its three letters: EUR;\ndefault USD"},
    {"--product", "NAME", OPTION_PRODUCT, STORED(product), "the name of the product in the sheet"},
    {"--name", "NAME", OPTION_NAME, STORED(name),
     "one figure of it: a rate, a let, a cost, a show, or one\nof the engine's own names, such as "
     "margin"},
    {"--goal", "TEXT", OPTION_GOAL, STORED(goal), "only the goal with this text in the rules"},
    {"--pace", "N", OPTION_PACE, STORED(pace),
     "how many you sell a week: 2.5; or a month: '10 per month'"},
    {"--by", "NAME", OPTION_BY, STORED(by),
     "what to rank by, the highest first; default profit: a\nshow, a cost, a let, or one of the "
     "engine's own names"},
    {"--at", "PRICE", OPTION_AT, STORED(at),
     "the price: '$45'; or the heading of a column of the\nsheet with a price for each product"},
    {"--channel", "NAME,...", OPTION_CHANNEL, TAKEN(take_channel),
     "only this channel; repeat it for more channels"},
    {"--quantity", "N,N...", OPTION_QUANTITY, TAKEN(take_quantity),
     "the number of pieces in the order; default 1"},
    {"--set", "RATE=VALUE", OPTION_SET, TAKEN(take_set),
     "a new value for a rate, written as in the rules, or a\nchange such as +10%; repeat it for "
     "more,\neach on what the ones before it have left"},
    {"--against", "OTHER", OPTION_AGAINST, STORED(against),
     "other rules, which give the prices after the change"},
    {"--since", "LIST.csv", OPTION_SINCE, STORED(since),
     "a list from groat price, which has the prices before the\nchange"},
    {"--hold", "PERCENT", OPTION_HOLD, STORED(hold),
     "keep an old price if the new one is within this share of\nit: 3%"},
    {"--over", "RATE=A..B", OPTION_OVER, TAKEN(take_over),
     "the rate to change, with its first and last value: both\nwritten as in the rules, or changes "
     "such as -10%..+10%"},
    {"--steps", "N", OPTION_STEPS, TAKEN(take_steps),
     "the number of values, including both ends; default 101"},
    {"--by", "PERCENT", OPTION_BY_PERCENT, STORED(by),
     "by how much to raise the rates, or lower with a minus;\ndefault 1%"},
    {"--each", NULL, OPTION_EACH, STORED(each), "one row for each price and rate"},
    {"--chart", "FILE", OPTION_CHART, STORED(chart), "also write a chart to this file, as SVG"},
    {"--as-of", "DATE", OPTION_AS_OF, TAKEN(take_as_of),
     "the date that the prices are for: 2027-01-31"},
    {"--format", "FORM", OPTION_FORMAT, TAKEN(take_format),
     "table, csv, json or ndjson; default table, or what the\nname of the --output ends in"},
    {"--format", "FORM", OPTION_NAME, TAKEN(take_format),
     "table or json; default table, or what the name of the\n--output ends in"},
    {"--columns", "NAME,...", OPTION_DATA, TAKEN(take_columns),
     "only these columns, in this order, by their names in csv"},
    {"--exact", NULL, OPTION_FORMAT, STORED(exact),
     "all digits of every amount in csv and json, if need be\nas top/bottom"},
    {"--exact", NULL, OPTION_NAME, STORED(exact),
     "all digits of every amount in json, if need be as\ntop/bottom"},
    {"--raw", NULL, OPTION_DATA, STORED(raw),
     "leave texts in csv as they are, also those that a\nspreadsheet would run as formulas"},
    {"--output", "FILE", OPTION_OUTPUT, STORED(output),
     "write to this file; an existing one is replaced only when\nthe new one is complete"},
    {"--decimal", "MARK", OPTION_DECIMAL, TAKEN(take_decimal),
     "the decimal mark: point (1,234.50) or comma (1.234,50),\nin the cells of PRODUCTS, in "
     "tables, "
     "charts and csv,\nwhich then has semicolons; notes and reasons from the\nrules keep the "
     "point"},
    {"--from", "FORM", OPTION_FROM, TAKEN(take_from),
     "the format of PRODUCTS, whatever its name: csv, tsv,\njson, ndjson"},
    {"--estimates", NULL, OPTION_ESTIMATES, STORED(estimates),
     "add how far prices and costs may vary where there are\nranges"},
    {"--buyers", NULL, OPTION_ALL, STORED(buyers),
     "only what a customer may see: what is sold, for how much,\nand what the buyer adds and pays"},
    {"--all", NULL, OPTION_ALL, STORED(all),
     "rows also for channels on which a product is not sold, in\ncsv and json"},
    {"--jobs", "N", OPTION_JOBS, TAKEN(take_jobs),
     "how many rows are priced at once; default: as many as\nthere are processors, and for a table "
     "one"},
    {"--check", NULL, OPTION_CHECK, STORED(check),
     "only name the files that are not tidy; change nothing"},
    {"--compiled", NULL, OPTION_COMPILED, STORED(compiled),
     "the steps that the rules are compiled to"},
    {"--write", NULL, OPTION_WRITE, STORED(write), "replace the file by the tidy text"},
    {"--quiet", NULL, OPTION_ALWAYS, STORED(quiet),
     "no notes, warnings or progress on standard error; errors\nare still reported"},
    {"--help", NULL, OPTION_ALWAYS, STORED(help), "this text"},
    {"--version", NULL, OPTION_ALWAYS, STORED(version), "the version of groat"},
};
enum { OPTIONS = sizeof options / sizeof *options };

/* Options that may be written as a single letter. */
static const struct {
    const char *letter, *name;
} letters[] = {{"-h", "--help"}, {"-V", "--version"}};
enum { LETTERS = sizeof letters / sizeof *letters };

static void write_option(FILE *out, const struct option *option)
{
    const char *letter = NULL;
    for (size_t i = 0; i < LETTERS; i++)
        if (strcmp(letters[i].name, option->name) == 0)
            letter = letters[i].letter;
    char left[32];
    snprintf(left, sizeof left, "%s%s%s%s%s", letter ? letter : "", letter ? ", " : "",
             option->name, option->argument ? " " : "", option->argument ? option->argument : "");
    fprintf(out, "  %-20s ", left);
    for (const char *at = option->help; *at; at++) {
        fputc(*at, out);
        if (*at == '\n')
            fprintf(out, "%23s", "");
    }
    fputc('\n', out);
}

void options_write(FILE *out, uint64_t wanted)
{
    for (size_t i = 0; i < OPTIONS; i++)
        if (options[i].bit & (wanted | OPTION_ALWAYS))
            write_option(out, &options[i]);
}

/* ---- reading ---- */

/* The words of a command line while it is read. */
struct words {
    int argc;
    char **argv;
    int at;
    uint64_t given; /* bits */
};

static const struct option *find_option(const char *word, size_t length)
{
    for (size_t i = 0; i < LETTERS; i++)
        if (length == 2 && memcmp(letters[i].letter, word, length) == 0)
            return find_option(letters[i].name, strlen(letters[i].name));
    for (size_t i = 0; i < OPTIONS; i++)
        if (strlen(options[i].name) == length && memcmp(options[i].name, word, length) == 0)
            return &options[i];
    return NULL;
}

/* The first word that is a verb; or NULL. */
static const struct verb *verb_at_hand(const struct words *words)
{
    const struct verb *verb = NULL;
    for (int i = 1; i < words->argc && !verb; i++)
        verb = places_verb(words->argv[i]);
    return verb;
}

static const char *without_dashes(const char *word)
{
    return word + strspn(word, "-");
}

/* Whether one of two words begins with the other, which must have three letters or more. */
static bool begin_alike(const char *one, const char *other)
{
    size_t length = strlen(one), other_length = strlen(other);
    size_t least = length < other_length ? length : other_length;
    return least >= 3 && memcmp(one, other, least) == 0;
}

/* The option that is meant by an unknown word, among those of these bits; or NULL. */
static const char *nearest_option(const char *wanted, uint64_t bits)
{
    struct near near = near_to(wanted, strlen(wanted));
    const char *alike = NULL;
    for (size_t i = 0; i < OPTIONS; i++) {
        if (!(options[i].bit & bits))
            continue;
        if (begin_alike(wanted, without_dashes(options[i].name)))
            alike = options[i].name;
        near_offer(&near, without_dashes(options[i].name));
    }
    return alike || !near.best ? alike : near.best - strlen("--");
}

/* Proposes only what the verb takes; `--json` is meant as `--format json`. */
static bool unknown_option(const struct words *words, const char *word, size_t length)
{
    char name[64];
    snprintf(name, sizeof name, "%.*s", (int)(length < 60 ? length : 60), word);
    const char *plain = without_dashes(name);
    const struct verb *verb = verb_at_hand(words);
    uint64_t bits = verb ? verb->options | OPTION_ALWAYS : UINT64_MAX;
    const char *nearest = nearest_option(plain, bits);
    enum listing_form form;
    say("groat: there is no option %s", name);
    if ((bits & OPTION_FORMAT) && listing_form_of_word(plain, &form))
        say("Try: --format %s", plain);
    else if (nearest || !verb)
        say_try(nearest ? nearest : "groat --help");
    else
        say("Try: groat help %s", verb->name);
    return false;
}

static bool take_value(struct request *request, const struct option *option, const char *value)
{
    char *place = (char *)request + option->place;
    if (option->take)
        return option->take(request, value);
    if (option->argument)
        *(const char **)place = value;
    else
        *(bool *)place = true;
    return true;
}

static bool read_option(struct request *request, struct words *words)
{
    const char *word = words->argv[words->at];
    const char *sign = strchr(word, '=');
    size_t length = sign ? (size_t)(sign - word) : strlen(word);
    const struct option *option = find_option(word, length);
    if (!option)
        return unknown_option(words, word, length);
    words->given |= option->bit;
    if (!option->argument && sign) {
        say("groat: %s takes no value", option->name);
        return false;
    }
    const char *value = sign ? sign + 1 : NULL;
    if (option->argument && !sign && words->at + 1 < words->argc)
        value = words->argv[++words->at];
    if (option->argument && (!value || !*value)) {
        say("groat: %s needs a value: %s %s", option->name, option->name, option->argument);
        return false;
    }
    return take_value(request, option, value);
}

static bool read_words(struct request *request, struct words *words)
{
    bool only_places = false; /* after `--` */
    for (; words->at < words->argc; words->at++) {
        const char *word = words->argv[words->at];
        bool place = only_places || word[0] != '-' || strcmp(word, "-") == 0;
        if (place)
            request->places[request->places_count++] = word;
        else if (!place && strcmp(word, "--") == 0)
            only_places = true;
        else if (!place && !read_option(request, words))
            return false;
    }
    return true;
}

/* Whether the verb takes an option of this name, in whatever meaning. */
static bool takes_option(const struct verb *verb, const char *name)
{
    for (size_t i = 0; i < OPTIONS; i++)
        if (strcmp(options[i].name, name) == 0 &&
            (options[i].bit & (verb->options | OPTION_ALWAYS)) != 0)
            return true;
    return false;
}

/* Options that the verb does not take. */
static bool fitting_options(const struct verb *verb, uint64_t given)
{
    for (size_t i = 0; i < OPTIONS; i++) {
        if ((options[i].bit & given) == 0 || takes_option(verb, options[i].name))
            continue;
        say("groat: %s takes no %s", verb->name, options[i].name);
        return false;
    }
    return true;
}

/* `3%` or `2.5%`: digits, at most six of them decimals. */
static bool read_hold(struct request *request)
{
    int64_t top = 0, bottom = 100;
    const char *at = request->hold;
    for (; text_is_digit(*at) && top <= 100; at++)
        top = top * 10 + (*at - '0');
    bool digits = at > request->hold;
    if (digits && (*at == '.' || (*at == ',' && request->decimal_comma))) {
        digits = text_is_digit(at[1]);
        for (at++; text_is_digit(*at) && bottom < 100000000; at++, bottom *= 10)
            top = top * 10 + (*at - '0');
    }
    if (digits && strcmp(at, "%") == 0 && top <= bottom) {
        request->hold_top = top;
        request->hold_bottom = bottom;
        return true;
    }
    say("groat: --hold needs a percentage from 0%% to 100%%, not %s", request->hold);
    say_try_percent("--hold", request->decimal_comma ? "" : request->hold, "3%");
    return false;
}

/* The form that the name of the output ends in, and `-` for standard output. */
static void settle_output(struct request *request)
{
    static const struct {
        const char *ending;
        enum listing_form form;
    } endings[] = {{".csv", LISTING_CSV},
                   {".json", LISTING_JSON},
                   {".ndjson", LISTING_NDJSON},
                   {".jsonl", LISTING_NDJSON}};
    if (request->output && strcmp(request->output, "-") == 0)
        request->output = NULL;
    const char *point = request->output ? strrchr(request->output, '.') : NULL;
    for (size_t i = 0; point && !request->format_given && i < sizeof endings / sizeof *endings; i++)
        if (strcasecmp(point, endings[i].ending) == 0)
            request->format = endings[i].form;
}

bool options_read(struct request *request, int argc, char **argv)
{
    size_t most = argc > 0 ? (size_t)argc : 1;
    *request = (struct request){.format = LISTING_TABLE};
    request->sets = calloc(most, sizeof *request->sets);
    request->quantities = calloc(QUANTITIES_MOST, sizeof *request->quantities);
    request->places = calloc(most, sizeof *request->places);
    if (!request->places || !request->sets || !request->quantities) {
        say_no_memory();
        return false;
    }
    struct words words = {.argc = argc, .argv = argv, .at = 1};
    if (!read_words(request, &words) || !places_settle(request))
        return false;
    if (request->help || request->version)
        return true;
    settle_output(request);
    if (!fitting_options(request->verb, words.given))
        return false;
    if (request->hold && !read_hold(request))
        return false;
    request->quantities_given = request->quantities_count > 0;
    if (!request->quantities_given)
        add_quantity(request, 1);
    return true;
}

void options_free(struct request *request)
{
    for (size_t i = 0; i < request->sets_count; i++)
        free((char *)request->sets[i].rate);
    free((char *)request->over.rate);
    free_names(request->channels, request->channels_count);
    free_names(request->columns, request->columns_count);
    free(request->sets);
    free(request->quantities);
    free(request->places);
}
