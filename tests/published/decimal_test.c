/* The General Decimal Arithmetic test cases of Mike Cowlishaw (IBM), as Debian's package
 * libpython3.11-testsuite has them.
 *
 * That arithmetic rounds each result to a number of digits; ours is exact. A case is stated as the
 * exact operation and then a rounding to a multiple of a power of ten: the one that leaves the
 * case's digits, or the least that its exponents allow. What is compared is the value; how many
 * zeros its text would close with has no counterpart here.
 *
 * Their roundings "up" and "down" are away from and toward zero; "ceiling" and "floor" are our
 * NUM_UP and NUM_DOWN. */
#define _POSIX_C_SOURCE 200809L

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <ctype.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "number/number.h"

enum {
    LINE_MOST = 16384,
    PATH_MOST = 512,
    WORDS_MOST = 24,
    /* 10^2466 is the greatest power of ten in NUM_BITS_MOST bits. */
    POWER_MOST = 2466
};

enum outcome {
    STATED,
    DIFFERENT,
    SKIPPED_OPERATION,
    SKIPPED_ROUNDING,
    SKIPPED_ENCODED,
    SKIPPED_NOT_FINITE,
    SKIPPED_NO_RESULT,
    SKIPPED_OVERFLOW,
    SKIPPED_LENGTH,
    SKIPPED_SUBSET,
    OUTCOMES
};

static const char *const outcome_names[OUTCOMES] = {
    [STATED] = "stated and equal",
    [DIFFERENT] = "DIFFERENT",
    [SKIPPED_OPERATION] = "skipped: an operation of another kind",
    [SKIPPED_ROUNDING] = "skipped: a rounding that is none of ours (half_down, 05up)",
    [SKIPPED_ENCODED] = "skipped: operands encoded or left open (#, ?)",
    [SKIPPED_NOT_FINITE] = "skipped: an operand is infinite or no number",
    [SKIPPED_NO_RESULT] = "skipped: needs more digits than the case allows, so has no result",
    [SKIPPED_OVERFLOW] = "skipped: past the case's greatest exponent",
    [SKIPPED_LENGTH] = "skipped: more than NUM_BITS_MOST bits",
    [SKIPPED_SUBSET] = "skipped: of the subset arithmetic, which rounds operands first",
};

enum mode { HALF_UP, HALF_EVEN, AWAY, TOWARD, CEILING, FLOOR, MODES };

static const char *const mode_names[MODES] = {"half_up", "half_even", "up",
                                              "down",    "ceiling",   "floor"};

struct context {
    long precision;
    long least_exponent;
    bool extended;
    enum mode mode; /* MODES when it is none of these */
};

/* A decimal from a case: value, and the exponent its last digit has. */
struct decimal {
    struct num value;
    long exponent;
    long magnitude; /* of the first digit, as far as the text tells */
};

struct published_case {
    const char *name, *operation, *result;
    const char *operands[2];
    size_t operand_count;
    char **conditions;
    size_t condition_count;
};

static struct memory memory;
static struct num_heap heap;

/* ---- decimals ---- */

/* False when the power has more bits than a number may. */
static bool power_of_ten(long exponent, struct num *out)
{
    char text[POWER_MOST + 2];
    long size = labs(exponent);
    if (size > POWER_MOST)
        return false;
    memset(text, '0', sizeof text);
    text[0] = '1';
    assert_int_equal(num_read_decimal(&heap, text, (size_t)size + 1, out), NUM_OK);
    if (exponent < 0)
        assert_int_equal(num_divide(&heap, num_whole(1), *out, out), NUM_OK);
    return true;
}

/* Splits `-12.50E+3` into digits and exponent; false when the text is no finite decimal. */
static bool split_decimal(const char *text, char *digits, size_t *count, long *exponent)
{
    const char *at = text + (*text == '-' || *text == '+');
    bool point = false;
    *count = 0;
    *exponent = 0;
    for (; isdigit((unsigned char)*at) || *at == '.'; at++) {
        if (*at == '.') {
            point = true;
            continue;
        }
        digits[(*count)++] = *at;
        *exponent -= point;
    }
    if (*count == 0)
        return false;
    if (*at == 'E' || *at == 'e') {
        char *end;
        *exponent += strtol(at + 1, &end, 10);
        at = end;
    }
    return *at == 0;
}

static enum outcome read_published(const char *text, struct decimal *out)
{
    char digits[LINE_MOST];
    size_t count;
    struct num scale;
    if (strpbrk(text, "#?"))
        return SKIPPED_ENCODED;
    if (!split_decimal(text, digits, &count, &out->exponent))
        return SKIPPED_NOT_FINITE;
    out->magnitude = out->exponent + (long)count - 1;
    enum num_status status = num_read_decimal(&heap, digits, count, &out->value);
    if (status == NUM_OK && num_sign(out->value) != 0) {
        if (!power_of_ten(out->exponent, &scale))
            return SKIPPED_LENGTH;
        status = num_multiply(&heap, out->value, scale, &out->value);
    }
    if (status == NUM_OK && *text == '-')
        status = num_negate(&heap, out->value, &out->value);
    return status == NUM_OK ? STATED : SKIPPED_LENGTH;
}

/* ---- roundings ---- */

static enum num_rounding our_rounding(enum mode mode, int sign)
{
    switch (mode) {
    case HALF_UP: return NUM_NEAREST;
    case HALF_EVEN: return NUM_EVEN;
    case AWAY: return sign < 0 ? NUM_DOWN : NUM_UP;
    case TOWARD: return sign < 0 ? NUM_UP : NUM_DOWN;
    case CEILING: return NUM_UP;
    default: return NUM_DOWN;
    }
}

static enum outcome round_at(struct num value, long exponent, enum mode mode, struct num *out)
{
    struct num step;
    if (mode == MODES)
        return SKIPPED_ROUNDING;
    if (!power_of_ten(exponent, &step))
        return SKIPPED_LENGTH;
    enum num_status status =
        num_round_to(&heap, value, step, our_rounding(mode, num_sign(value)), out);
    return status == NUM_OK ? STATED : SKIPPED_LENGTH;
}

/* Compares |value| with 10^exponent; false when that power is too long. */
static bool compare_with_power(struct num value, long exponent, int *order)
{
    struct num power;
    if (!power_of_ten(exponent, &power))
        return false;
    if (num_sign(value) < 0)
        assert_int_equal(num_negate(&heap, value, &value), NUM_OK);
    *order = num_compare(value, power);
    return true;
}

/* Rounds to the case's count of digits. `guess` is about the exponent of the first digit. */
static enum outcome round_to_digits(const struct context *context, long guess, struct num value,
                                    struct num *out)
{
    int order;
    if (num_sign(value) == 0) {
        *out = value;
        return STATED;
    }
    for (;; guess++) {
        if (!compare_with_power(value, guess + 1, &order))
            return SKIPPED_LENGTH;
        if (order < 0)
            break;
    }
    for (;; guess--) {
        if (!compare_with_power(value, guess, &order))
            return SKIPPED_LENGTH;
        if (order >= 0)
            break;
    }
    long first = guess < context->least_exponent ? context->least_exponent : guess;
    return round_at(value, first - (context->precision - 1), context->mode, out);
}

/* ---- operations ---- */

enum operation {
    ADD,
    SUBTRACT,
    MULTIPLY,
    DIVIDE,
    DIVIDE_WHOLE,
    REMAINDER,
    PLUS,
    MINUS,
    ABS,
    COMPARE,
    QUANTIZE,
    RESCALE,
    TO_WHOLE,
    OPERATIONS
};

static const struct {
    const char *name;
    enum operation operation;
    size_t operands;
} operation_table[] = {
    {"add", ADD, 2},
    {"subtract", SUBTRACT, 2},
    {"multiply", MULTIPLY, 2},
    {"divide", DIVIDE, 2},
    {"divideint", DIVIDE_WHOLE, 2},
    {"remainder", REMAINDER, 2},
    {"plus", PLUS, 1},
    {"minus", MINUS, 1},
    {"abs", ABS, 1},
    {"reduce", PLUS, 1},
    {"compare", COMPARE, 2},
    {"quantize", QUANTIZE, 2},
    {"rescale", RESCALE, 2},
    {"tointegral", TO_WHOLE, 1},
    {"tointegralx", TO_WHOLE, 1},
};

static enum operation find_operation(const struct published_case *published)
{
    for (size_t i = 0; i < sizeof operation_table / sizeof *operation_table; i++)
        if (strcasecmp(operation_table[i].name, published->operation) == 0 &&
            operation_table[i].operands == published->operand_count)
            return operation_table[i].operation;
    return OPERATIONS;
}

/* a / b toward zero, and what is left of a. */
static enum num_status divide_whole(struct num a, struct num b, struct num *whole, struct num *left)
{
    struct num product;
    enum num_status status = num_divide(&heap, a, b, whole);
    if (status == NUM_OK)
        status = num_round(&heap, *whole, num_sign(*whole) < 0 ? NUM_UP : NUM_DOWN, whole);
    if (status == NUM_OK)
        status = num_multiply(&heap, *whole, b, &product);
    if (status == NUM_OK)
        status = num_subtract(&heap, a, product, left);
    return status;
}

/* The exact result, and about where its first digit is. */
static enum num_status exact_result(enum operation operation, const struct decimal *a,
                                    const struct decimal *b, struct num *out, long *guess)
{
    struct num other;
    *guess = a->magnitude > b->magnitude ? a->magnitude : b->magnitude;
    switch (operation) {
    case ADD: return num_add(&heap, a->value, b->value, out);
    case SUBTRACT: return num_subtract(&heap, a->value, b->value, out);
    case MULTIPLY:
        *guess = a->magnitude + b->magnitude;
        return num_multiply(&heap, a->value, b->value, out);
    case DIVIDE:
        *guess = a->magnitude - b->magnitude;
        return num_divide(&heap, a->value, b->value, out);
    case DIVIDE_WHOLE:
        *guess = a->magnitude - b->magnitude;
        return divide_whole(a->value, b->value, out, &other);
    case REMAINDER: *guess = b->magnitude; return divide_whole(a->value, b->value, &other, out);
    case MINUS: return num_negate(&heap, a->value, out);
    case ABS:
        if (num_sign(a->value) < 0)
            return num_negate(&heap, a->value, out);
        return num_copy(&heap, a->value, out);
    case COMPARE: *out = num_whole(num_compare(a->value, b->value)); return NUM_OK;
    default: return num_copy(&heap, a->value, out);
    }
}

static enum outcome our_result(const struct context *context, enum operation operation,
                               const struct decimal *a, const struct decimal *b, struct num *out)
{
    int64_t places;
    long guess;
    struct num exact;
    if (operation == QUANTIZE)
        return round_at(a->value, b->exponent, context->mode, out);
    if (operation == TO_WHOLE)
        return round_at(a->value, 0, context->mode, out);
    if (operation == RESCALE) {
        if (!num_to_int64(b->value, &places))
            return SKIPPED_NO_RESULT;
        return round_at(a->value, (long)places, context->mode, out);
    }
    if (exact_result(operation, a, b, &exact, &guess) != NUM_OK)
        return SKIPPED_LENGTH;
    if (operation == COMPARE) {
        *out = exact;
        return STATED;
    }
    return round_to_digits(context, guess, exact, out);
}

/* ---- cases ---- */

static bool has_condition(const struct published_case *published, const char *name)
{
    for (size_t i = 0; i < published->condition_count; i++)
        if (strcasecmp(published->conditions[i], name) == 0)
            return true;
    return false;
}

static bool divides_by_zero(const struct published_case *published)
{
    return has_condition(published, "Division_by_zero") ||
           has_condition(published, "Division_undefined");
}

static enum outcome try_case(const struct context *context, const struct published_case *published)
{
    struct decimal operands[2] = {{num_whole(0), 0, 0}, {num_whole(0), 0, 0}};
    struct decimal expected;
    struct num result;
    long guess;
    enum operation operation = find_operation(published);
    if (operation == OPERATIONS)
        return SKIPPED_OPERATION;
    if (!context->extended)
        return SKIPPED_SUBSET;
    for (size_t i = 0; i < published->operand_count; i++) {
        enum outcome outcome = read_published(published->operands[i], &operands[i]);
        if (outcome != STATED)
            return outcome;
    }
    if (divides_by_zero(published)) {
        enum num_status status =
            exact_result(operation, &operands[0], &operands[1], &result, &guess);
        return status == NUM_DIVIDED_BY_ZERO ? STATED : DIFFERENT;
    }
    if (has_condition(published, "Overflow"))
        return SKIPPED_OVERFLOW;
    enum outcome outcome = read_published(published->result, &expected);
    if (outcome != STATED)
        return outcome == SKIPPED_NOT_FINITE ? SKIPPED_NO_RESULT : outcome;
    outcome = our_result(context, operation, &operands[0], &operands[1], &result);
    if (outcome == STATED && !num_equal(result, expected.value))
        return DIFFERENT;
    return outcome;
}

static void take_directive(struct context *context, const char *name, const char *value)
{
    if (strcasecmp(name, "precision:") == 0)
        context->precision = strtol(value, NULL, 10);
    else if (strcasecmp(name, "minexponent:") == 0)
        context->least_exponent = strtol(value, NULL, 10);
    else if (strcasecmp(name, "extended:") == 0)
        context->extended = strtol(value, NULL, 10) != 0;
    else if (strcasecmp(name, "rounding:") == 0) {
        int mode = 0;
        while (mode < MODES && strcasecmp(mode_names[mode], value) != 0)
            mode++;
        context->mode = (enum mode)mode;
    }
}

/* Words lie in the line itself; quotes around them are dropped, and `--` ends the line. */
static size_t split_words(char *line, char **words)
{
    size_t count = 0;
    char *at = line;
    while (count < WORDS_MOST) {
        at += strspn(at, " \t\r\n");
        if (*at == 0 || strncmp(at, "--", 2) == 0)
            break;
        char quote = *at == '\'' || *at == '"' ? *at++ : 0;
        const char closing[] = {quote, 0};
        words[count++] = at;
        at += strcspn(at, quote ? closing : " \t\r\n");
        if (*at != 0)
            *at++ = 0;
    }
    return count;
}

/* False for a line that is no case. */
static bool find_case(char **words, size_t count, struct published_case *out)
{
    size_t arrow = 0;
    while (arrow < count && strcmp(words[arrow], "->") != 0)
        arrow++;
    if (arrow < 2 || arrow + 1 >= count)
        return false;
    *out = (struct published_case){.name = words[0],
                                   .operation = words[1],
                                   .result = words[arrow + 1],
                                   .operand_count = arrow - 2,
                                   .conditions = words + arrow + 2,
                                   .condition_count = count - arrow - 2};
    for (size_t i = 0; i < out->operand_count && i < 2; i++)
        out->operands[i] = words[2 + i];
    return true;
}

/* ---- files ---- */

static bool find_folder(char *folder)
{
    glob_t found;
    bool any = glob("/usr/lib/python3*/test/decimaltestdata", 0, NULL, &found) == 0;
    if (any)
        snprintf(folder, PATH_MOST, "%s", found.gl_pathv[0]);
    globfree(&found);
    return any;
}

static void run_file(const char *folder, const char *name, size_t counts[OUTCOMES])
{
    char path[2 * PATH_MOST];
    char line[LINE_MOST];
    char *words[WORDS_MOST];
    struct context context = {.precision = 9, .extended = true, .mode = HALF_UP};
    struct published_case published;
    snprintf(path, sizeof path, "%s/%s.decTest", folder, name);
    FILE *file = fopen(path, "r");
    if (!file)
        fail_msg("%s.decTest is not beside the others", name);
    while (fgets(line, sizeof line, file)) {
        size_t count = split_words(line, words);
        if (count == 2)
            take_directive(&context, words[0], words[1]);
        if (!find_case(words, count, &published))
            continue;
        struct num_mark mark = num_heap_mark(&heap);
        enum outcome outcome = try_case(&context, &published);
        num_heap_rewind(&heap, mark);
        counts[outcome]++;
        if (outcome == DIFFERENT)
            printf("%s: %s gives another result\n", name, published.name);
    }
    fclose(file);
}

/* Runs the files, says how many cases there were of each kind, and expects at least `floor` of them
 * to have been stated. */
static void run_files(const char *const *names, size_t name_count, size_t floor)
{
    char folder[PATH_MOST];
    size_t counts[OUTCOMES] = {0};
    if (!find_folder(folder)) {
        printf("SKIPPED: the *.decTest files are not installed (libpython3.11-testsuite)\n");
        skip();
    }
    for (size_t i = 0; i < name_count; i++)
        run_file(folder, names[i], counts);
    for (size_t i = 0; i < OUTCOMES; i++)
        if (counts[i] > 0)
            printf("%7zu %s\n", counts[i], outcome_names[i]);
    assert_int_equal(counts[DIFFERENT], 0);
    assert_true(counts[STATED] >= floor);
}

static void published_sums_and_differences_come_out_equal(void **state)
{
    static const char *const names[] = {"add",   "subtract",   "plus",  "minus",      "abs",
                                        "ddAdd", "ddSubtract", "dqAdd", "dqSubtract", "reduce"};
    (void)state;
    run_files(names, sizeof names / sizeof *names, 5400);
}

static void published_products_and_quotients_come_out_equal(void **state)
{
    static const char *const names[] = {"multiply",    "divide",     "divideint",   "remainder",
                                        "ddMultiply",  "ddDivide",   "dqDivide",    "ddDivideInt",
                                        "dqDivideInt", "dqMultiply", "ddRemainder", "dqRemainder"};
    (void)state;
    run_files(names, sizeof names / sizeof *names, 4300);
}

static void published_roundings_come_out_equal(void **state)
{
    static const char *const names[] = {"quantize",   "rescale",    "tointegral",   "tointegralx",
                                        "ddQuantize", "dqQuantize", "ddToIntegral", "dqToIntegral",
                                        "rounding",   "inexact"};
    (void)state;
    run_files(names, sizeof names / sizeof *names, 3300);
}

static void published_comparisons_come_out_equal(void **state)
{
    static const char *const names[] = {"compare", "ddCompare", "dqCompare"};
    (void)state;
    run_files(names, sizeof names / sizeof *names, 1600);
}

static void published_random_cases_come_out_equal(void **state)
{
    static const char *const names[] = {"randoms", "randomBound32"};
    (void)state;
    run_files(names, sizeof names / sizeof *names, 3400);
}

static int open_heap(void **state)
{
    (void)state;
    memory = memory_standard();
    num_heap_open(&heap, &memory, NUM_BITS_MOST);
    return 0;
}

static int close_heap(void **state)
{
    (void)state;
    num_heap_close(&heap);
    return memory.held == 0 ? 0 : -1;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_sums_and_differences_come_out_equal),
        cmocka_unit_test(published_products_and_quotients_come_out_equal),
        cmocka_unit_test(published_roundings_come_out_equal),
        cmocka_unit_test(published_comparisons_come_out_equal),
        cmocka_unit_test(published_random_cases_come_out_equal),
    };
    return cmocka_run_group_tests_name("General Decimal Arithmetic", tests, open_heap, close_heap);
}
