/* JSON and NDJSON sheets. Sections are those of RFC 8259. */
#include "sheets/sheet_checks.h"

static void an_array_of_objects_is_rows_and_their_keys_are_columns(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"name\": \"tray\", \"price\": \"$3\"},\n {\"name\": \"bowl\"}]\n", 2, 2,
           "name", "price", "tray", "$3", "bowl", NULL);
}

static void columns_are_all_keys_in_the_order_in_which_they_first_appear(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"c\":1,\"a\":2},{\"b\":3,\"a\":4},{\"d\":7,\"b\":6,\"c\":5}]", 3, 4, "c",
           "a", "b", "d", "1", "2", NULL, NULL, NULL, "4", "3", NULL, "5", NULL, "6", "7");
}

/* Section 6 lets a reader limit the range of numbers: this one reads none, and writes out an exponent
 * that a double can have. */
static void numbers_keep_the_text_they_are_written_with(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON,
           "[{\"a\":12.10,\"b\":-0.0,\"c\":1e400,\"d\":1E+2,\"e\":123456789012345678901234567890,"
           "\"f\":0.1000000000000000055511151231257827}]",
           1, 6, "a", "b", "c", "d", "e", "f", "12.10", "-0.0", "1e400", "100",
           "123456789012345678901234567890", "0.1000000000000000055511151231257827");
}

/* Python, JavaScript and SQLite write small and great doubles with an exponent. */
static void numbers_with_an_exponent_are_written_out(void **state)
{
    (void)state;
    EXPECT(SHEET_NDJSON,
           "{\"a\":5e-05,\"b\":1E3,\"c\":-1.25e+2,\"d\":0e5,\"e\":0.005e1,\"f\":12.50e1}", 1, 6,
           "a", "b", "c", "d", "e", "f", "0.00005", "1000", "-125", "0", "0.05", "125.0");
    EXPECT(SHEET_JSON,
           "[{\"a\":1e-0,\"b\":120e-1,\"c\":-0.0e-3,\"d\":1.5e1,\"e\":1e325,\"f\":{\"s\":2e1}}]", 1,
           6, "a", "b", "c", "d", "e", "f", "1", "12.0", "-0", "15", "1e325", "s 20");
}

static void true_and_false_become_yes_and_no(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"a\":true,\"b\":false}]", 1, 2, "a", "b", "yes", "no");
}

static void null_and_an_empty_text_are_absent_and_their_column_stays(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"a\":null,\"b\":\"\",\"c\":{},\"d\":\" \"}]", 1, 4, "a", "b", "c", "d",
           NULL, NULL, NULL, " ");
}

static void an_object_becomes_parts_in_its_own_order(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON,
           "[{\"name\":\"tray\",\"parts\":{\"screws\":8,\"linseed_oil\":\"15 ml\"},\"n\":1},"
           "{\"parts\":{\"linseed_oil\":\"2 ml\"}}]",
           2, 3, "name", "parts", "n", "tray", "screws 8 + linseed_oil 15 ml", "1", NULL,
           "linseed_oil 2 ml", NULL);
}

static void parts_without_an_amount_are_left_out(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"p\":{\"a\":null,\"b\":2,\"c\":\"\",\"d\":1.50}},{\"p\":{\"a\":null}}]",
           2, 1, "p", "b 2 + d 1.50", NULL);
}

/* Section 7. */
static void escapes_are_read_as_the_characters_they_stand_for(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON,
           "[{\"a\":\"\\u00e9 \\uD83C\\uDF33 \\\\u0000 \\\"\\/\\n\\t\",\"\\u0062\":\"\\ud83c\\udf33"
           "\"}]",
           1, 2, "a", "b", "\xC3\xA9 \xF0\x9F\x8C\xB3 \\u0000 \"/\n\t", "\xF0\x9F\x8C\xB3");
}

static void texts_keep_their_spaces_and_keys_lose_those_around_them(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\" a b \":\" x \"}]", 1, 1, "a b", " x ");
}

static void an_empty_array_is_a_sheet_of_no_rows(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, " [ ] ", 0, 0, NULL);
}

static void an_empty_object_is_a_row_without_cells(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{},{\"a\":1},{}]", 3, 1, "a", NULL, "1", NULL);
}

/* Section 8.1 lets a reader ignore one. */
static void a_byte_order_mark_is_passed_over(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "\xEF\xBB\xBF[{\"a\":1}]", 1, 1, "a", "1");
    EXPECT(SHEET_NDJSON, "\xEF\xBB\xBF{\"a\":1}", 1, 1, "a", "1");
}

static void a_row_knows_the_line_its_object_begins_on(void **state)
{
    (void)state;
    struct sheet *sheet = read_fine(SHEET_JSON, "[\r\n{\"a\":1},{\r\n\"a\":2},\r\r\n{\"a\":3}\n]");
    const size_t lines[] = {2, 2, 5};
    assert_int_equal(sheet_row_count(sheet), 3);
    for (size_t row = 0; row < 3; row++)
        assert_int_equal(sheet_row_line(sheet, row), lines[row]);
    sheet_free(sheet);
}

static void ndjson_is_one_object_a_line_and_blank_lines_are_passed_over(void **state)
{
    (void)state;
    const char text[] = "\n{\"a\":1}\n \t\r\n{\"b\":true, \"a\":\"x\\ny\"} \r\n\r{\"a\":{\"s\":2}}";
    EXPECT(SHEET_NDJSON, text, 3, 2, "a", "b", "1", NULL, "x\ny", "yes", "s 2", NULL);
    struct sheet *sheet = read_fine(SHEET_NDJSON, text);
    const size_t lines[] = {2, 4, 6};
    for (size_t row = 0; row < 3; row++)
        assert_int_equal(sheet_row_line(sheet, row), lines[row]);
    sheet_free(sheet);
}

static void a_key_of_the_sheet_may_be_a_part_too(void **state)
{
    (void)state;
    EXPECT(SHEET_JSON, "[{\"a\":{\"a\":1},\"b\":{\"a\":2}}]", 1, 2, "a", "b", "a 1", "a 2");
}

static void a_million_rows_on_one_line_are_read(void **state)
{
    (void)state;
    const size_t rows = 1000000;
    char *text = malloc(rows * 24 + 8), *end = text;
    assert_non_null(text);
    *end++ = '[';
    for (size_t row = 0; row < rows; row++)
        end += sprintf(end, "{\"n\":%zu,\"m\":\"x\"},", row);
    end[-1] = ']';
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_JSON, text, (size_t)(end - text), &error);
    free(text);
    assert_non_null(sheet);
    assert_int_equal(sheet_row_count(sheet), rows);
    expect_text(sheet_cell(sheet, 765432, 0), "765432");
    expect_text(sheet_cell(sheet, 999999, 1), "x");
    assert_int_equal(sheet_row_line(sheet, 999999), 1);
    sheet_free(sheet);
}

/* Rows times columns would be 64 million cells; only 8000 hold something. */
static void rows_with_keys_of_their_own_cost_only_their_cells(void **state)
{
    (void)state;
    const size_t rows = 8000;
    char *text = malloc(rows * 24), *end = text;
    assert_non_null(text);
    for (size_t row = 0; row < rows; row++)
        end += sprintf(end, "{\"k%zu\":%zu}\n", row, row);
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_NDJSON, text, (size_t)(end - text), &error);
    free(text);
    assert_non_null(sheet);
    assert_int_equal(sheet_column_count(sheet), rows);
    expect_text(sheet_cell(sheet, 7654, 7654), "7654");
    expect_text(sheet_cell(sheet, 7654, 7653), NULL);
    expect_text(sheet_cell(sheet, 7654, 7655), NULL);
    sheet_free(sheet);
}

static void more_than_a_thousand_parts_are_refused(void **state)
{
    (void)state;
    char *text = malloc(1001 * 12 + 32), *end = text;
    assert_non_null(text);
    end += sprintf(end, "{\"p\":{");
    for (int part = 0; part < 1001; part++)
        end += sprintf(end, "\"s%d\":1,", part);
    end[-1] = '}';
    *end++ = '}';
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_NDJSON, text, (size_t)(end - text), &error);
    assert_non_null(sheet);
    assert_true(sheet_cell_trouble(sheet, 0, 0, &error));
    assert_string_equal(error.message, "a cell has more than 1000 parts");
    sheet_free(sheet);
    free(text);
}

static void a_line_that_cannot_be_read_does_not_stop_those_after_it(void **state)
{
    (void)state;
    struct sheet *sheet = read_fine(
        SHEET_NDJSON,
        "{\"a\":1}\n{\"a\":\"x\n[1]\n{\"a\":2,\"a\":3}\n{\"a\":4} {\"a\":5}\n7\n{\"a\":NaN}\n"
        "{\"a\":\"\\uD83C\"}\n{\"a\":\"\xFF\"}\n\n{\"b\":6,\"a\":8}");
    const char *const cells[] = {"1", NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, "8"};
    const size_t lines[] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 11};
    assert_int_equal(sheet_row_count(sheet), 10);
    for (size_t row = 0; row < 10; row++) {
        struct sheet_error why;
        expect_text(sheet_cell(sheet, row, 0), cells[row]);
        assert_int_equal(sheet_row_line(sheet, row), lines[row]);
        assert_int_equal(sheet_row_trouble(sheet, row, &why), cells[row] == NULL);
        if (!cells[row])
            assert_int_equal(why.line, lines[row]);
    }
    expect_text(sheet_cell(sheet, 9, 1), "6");
    sheet_free(sheet);
}

/* Whether a cell matters is known to the rules alone. */
static void a_cell_that_cannot_be_read_leaves_its_row_and_the_others(void **state)
{
    (void)state;
    struct sheet *sheet =
        read_fine(SHEET_JSON, "[{\"a\":1,\"tags\":[\"x\",{\"y\":[2]}],\"b\":2},\n"
                              "{\"size\":{\"w\":{\"mm\":3},\"h\":[4],\"d\":5},\"a\":6},\n"
                              "{\"a\":{\"two words\":1,\"c\":2},\"b\":{\"c\":3}}]");
    struct sheet_error why;
    assert_int_equal(sheet_row_count(sheet), 3);
    for (size_t row = 0; row < 3; row++)
        assert_false(sheet_row_trouble(sheet, row, &why));
    expect_text(sheet_cell(sheet, 0, 0), "1");
    expect_text(sheet_cell(sheet, 0, 1), NULL);
    expect_text(sheet_cell(sheet, 0, 2), "2");
    assert_true(sheet_cell_trouble(sheet, 0, 1, &why));
    assert_string_equal(why.message, "`tags` contains a list");
    assert_true(sheet_cell_trouble(sheet, 1, 3, &why));
    assert_string_equal(why.message, "`size` contains an object inside its parts");
    expect_text(sheet_cell(sheet, 1, 0), "6");
    assert_true(sheet_cell_trouble(sheet, 2, 0, &why));
    assert_string_equal(why.message, "a part cannot be named `two words`");
    expect_text(sheet_cell(sheet, 2, 2), "c 3");
    assert_false(sheet_cell_trouble(sheet, 2, 2, &why));
    sheet_free(sheet);
}

/* ---- wrong sheets ---- */

#define EMPTY "the sheet is empty", "export the sheet again, with its headings"
#define ROW_HELP "write each product as {\"name\": \"tray\", \"hands_on\": \"25 min\"}"
#define LIST_HELP "put the products in one list: [ {...}, {...} ]"
#define NULL_HELP "write null for an empty cell"
#define CUT_OFF "export the sheet again: its end is missing"
#define ONE_LINE "the line ends inside its object, before the `}`", "keep each object on one line"
#define PART_NAME "join its words with `_`, as in linseed_oil"
#define ZERO "`\\u0000` is a zero byte, which a sheet cannot contain", "remove it"
#define HALF "this escape is only half of a surrogate pair", "write the character itself"
#define COMMENT "JSON has no comments", "remove the comment"
#define CONTROL                                                                                    \
    "a text contains a line break, a tab or a similar character",                                  \
        "close the text with a quote, or write \\n for a line break and \\t for a tab"
#define UNFINISHED_NUMBER                                                                          \
    "this number is not finished", "write a digit before and after the point, as in 0.5"
#define NO_COMMA "remove the comma before it"

static struct wrong_sheet wrong_sheets[] = {
    {"an empty file is refused", SHEET_JSON, BYTES(""), 0, 0, EMPTY},
    {"a file of blank lines is refused", SHEET_NDJSON, BYTES("\n \r\n"), 0, 0, EMPTY},
    {"UTF-16 is named", SHEET_JSON, BYTES("\xFF\xFE[\0]\0"), 0, 0,
     "the sheet is in UTF-16, not in UTF-8", "save it as UTF-8"},
    {"UTF-16 without a mark is a zero byte", SHEET_JSON, BYTES("[\0]\0"), 1, 2,
     "there is a zero byte here, so this is not a text file",
     "save the sheet as plain text in UTF-8"},
    {"a byte that is not UTF-8 is refused with its place", SHEET_JSON,
     BYTES("[{\"\xC3\xA9\":1,\n\"b\":\"\xFC\"}]"), 2, 6, "the byte FC here is not valid UTF-8",
     "save the sheet as UTF-8"},
    {"one object is not a sheet", SHEET_JSON, BYTES("\n{\"a\":1}\n{\"a\":2}\n"), 2, 1,
     "a JSON sheet must be a list of objects, but this is one object",
     "put the products in [ ], or name the sheet .ndjson if every line is one object"},
    {"a number is not a sheet", SHEET_JSON, BYTES(" 12"), 1, 2,
     "a JSON sheet must be a list of objects, but this is a number", LIST_HELP},
    {"a text is not a sheet", SHEET_JSON, BYTES("\"tray\""), 1, 1,
     "a JSON sheet must be a list of objects, but this is a text", LIST_HELP},
    {"null is not a sheet", SHEET_JSON, BYTES("null"), 1, 1,
     "a JSON sheet must be a list of objects, but this is null", LIST_HELP},
    {"a number is not a row", SHEET_JSON, BYTES("[{\"a\":1},\n 7]"), 2, 2,
     "a product must be an object, but this is a number", ROW_HELP},
    {"true is not a row", SHEET_JSON, BYTES("[true]"), 1, 2,
     "a product must be an object, but this is true or false", ROW_HELP},
    {"a list is not a row", SHEET_JSON, BYTES("[[\"a\",\"b\"],[1,2]]"), 1, 2,
     "a product must be an object, but this is a list", ROW_HELP},
    {"a list is not a cell", SHEET_JSON, BYTES("[{\"a\":1,\"tags\": [\"x\"]}]"), 1, 17,
     "`tags` contains a list", "write parts as an object: {\"screws\": 8}"},
    {"a list is not a part", SHEET_JSON, BYTES("[{\"p\":{\"s\":[]}}]"), 1, 12,
     "`p` contains a list", "write parts as an object: {\"screws\": 8}"},
    {"an object inside parts is refused", SHEET_JSON, BYTES("[{\"p\":{\"s\":{\"n\":8}}}]"), 1, 12,
     "`p` contains an object inside its parts", "write each part as \"screws\": 8"},
    {"a flag is not an amount of a part", SHEET_JSON, BYTES("[{\"p\":{\"s\": true}}]"), 1, 13,
     "true and false are not amounts of a part", "write a number or a text like \"15 ml\""},
    {"a part's name with a space is refused", SHEET_JSON,
     BYTES("[{\"p\":{\"linseed oil\":\"15 ml\"}}]"), 1, 8, "a part cannot be named `linseed oil`",
     PART_NAME},
    {"a part's name with a plus is refused", SHEET_JSON, BYTES("[{\"p\":{\"a+b\":1}}]"), 1, 8,
     "a part cannot be named `a+b`", PART_NAME},
    {"a part without a name is refused", SHEET_JSON, BYTES("[{\"p\":{\"\":1}}]"), 1, 8,
     "a part cannot be named ``", PART_NAME},
    {"a repeated part is refused", SHEET_JSON, BYTES("[{\"p\":{\"a\":1,\"ab\":2,\n\"a\":null}}]"),
     2, 1, "the part `a` is given twice", "add up the two amounts"},
    {"a repeated key is refused (RFC 8259, section 4)", SHEET_JSON,
     BYTES("[{\"a\":1},\n{\"b\":1,\"a\":null,\"a\":2}]"), 2, 17, "the key `a` is given twice",
     "remove one of them"},
    {"a key repeated with a space is refused", SHEET_NDJSON, BYTES("{\"a\":1,\"a \":2}"), 1, 8,
     "the key `a` is given twice", "remove one of them"},
    {"an empty key is refused", SHEET_JSON, BYTES("[{\" \":1}]"), 1, 3, "this key is empty",
     "give it the name of a field"},
    {"a sheet cut off behind a row is refused at its end", SHEET_JSON, BYTES("[{\"a\":1},\n"), 2, 1,
     "the sheet ends in the middle, before a `]`", CUT_OFF},
    {"a sheet cut off inside a row is refused at its end", SHEET_JSON,
     BYTES("[{\"a\":1},\n{\"b\": 2"), 2, 8, "the sheet ends in the middle, before a `}`", CUT_OFF},
    {"a sheet cut off inside a text is refused at its end", SHEET_JSON, BYTES("[{\"a\":\"oa"), 1,
     10, "the sheet ends in the middle, before a `}`", CUT_OFF},
    {"a sheet cut off inside a word is refused at its end", SHEET_JSON, BYTES("[{\"a\":tr"), 1, 9,
     "the sheet ends in the middle, before a `}`", CUT_OFF},
    {"a sheet cut off inside an escape is refused at its end", SHEET_JSON, BYTES("[{\"a\":\"\\u00"),
     1, 12, "the sheet ends in the middle, before a `}`", CUT_OFF},
    {"a list cut off at once is refused", SHEET_JSON, BYTES("["), 1, 2,
     "the sheet ends in the middle, before a `]`", CUT_OFF},
    {"NaN is refused (RFC 8259, section 6)", SHEET_JSON, BYTES("[{\"a\": NaN}]"), 1, 8,
     "`NaN` is not JSON", NULL_HELP},
    {"infinity below zero is refused", SHEET_JSON, BYTES("[{\"a\": -Infinity}]"), 1, 8,
     "`-Infinity` is not JSON", NULL_HELP},
    {"Python's None is refused", SHEET_JSON, BYTES("[{\"a\":None}]"), 1, 7, "`None` is not JSON",
     NULL_HELP},
    {"Python's True is refused", SHEET_NDJSON, BYTES("{\"a\":1}\n{\"a\":True}\n"), 2, 6,
     "`True` is not JSON", "write true"},
    {"single quotes are refused", SHEET_JSON, BYTES("[{'a': 1}]"), 1, 3,
     "a text is in single quotes", "use double quotes: \"tray\""},
    {"curly quotes are refused", SHEET_JSON,
     BYTES("[{\xE2\x80\x9C"
           "a\xE2\x80\x9D: 1}]"),
     1, 3, "a text is in curly quotes", "use straight quotes: \"tray\""},
    {"a comment is refused", SHEET_JSON, BYTES("// ours\n[]"), 1, 1, COMMENT},
    {"a comment between rows is refused", SHEET_JSON, BYTES("[{\"a\":1}, /* x */ {\"a\":2}]"), 1,
     11, COMMENT},
    {"money outside quotes is refused", SHEET_JSON, BYTES("[{\"a\":$3.20}]"), 1, 7,
     "an amount of money is not in quotes", "put it in double quotes: \"$3.20\""},
    {"a plus before a number is refused", SHEET_JSON, BYTES("[{\"a\":+1}]"), 1, 7,
     "a number may not begin with `+`", "remove the `+`"},
    {"a point before a number is refused", SHEET_JSON, BYTES("[{\"a\":.5}]"), 1, 7,
     "a number may not begin with a point", "write 0.5 for .5"},
    {"a zero before a number is refused", SHEET_JSON, BYTES("[{\"a\":007}]"), 1, 7,
     "a number may not begin with 0", "put it in double quotes to keep its zeros"},
    {"a number that ends in its point is refused", SHEET_JSON, BYTES("[{\"a\":1.}]"), 1, 7,
     UNFINISHED_NUMBER},
    {"a number that ends in its exponent is refused", SHEET_JSON, BYTES("[{\"a\":1e}]"), 1, 7,
     UNFINISHED_NUMBER},
    {"a word is refused", SHEET_JSON, BYTES("[{\"a\":tray}]"), 1, 7, "this word is not JSON",
     "put text in double quotes"},
    {"a key without quotes is refused", SHEET_JSON, BYTES("[{a:1}]"), 1, 3, "this is not JSON",
     "put text in double quotes"},
    {"a number as a key is refused", SHEET_JSON, BYTES("[{1:2}]"), 1, 3,
     "a key must be a text in double quotes", "write \"name\": \"tray\""},
    {"a comma behind the last cell is refused", SHEET_JSON, BYTES("[{\"a\":1,\n}]"), 2, 1,
     "there is a comma before this `}`", NO_COMMA},
    {"a comma behind the last row is refused", SHEET_JSON, BYTES("[{\"a\":1},\n]"), 2, 1,
     "there is a comma before this `]`", NO_COMMA},
    {"two commas are refused", SHEET_JSON, BYTES("[{\"a\":1},,{\"a\":2}]"), 1, 10,
     "there is a comma before this `,`", NO_COMMA},
    {"a missing comma between cells is refused", SHEET_JSON, BYTES("[{\"a\":1 \"b\":2}]"), 1, 9,
     "a comma or a `}` is missing before this", "put a comma between two cells"},
    {"a missing comma between rows is refused", SHEET_JSON, BYTES("[{\"a\":1}\n{\"a\":2}]"), 2, 1,
     "a comma or a `]` is missing before this", "put a comma between two products"},
    {"a missing colon is refused", SHEET_JSON, BYTES("[{\"a\" 1}]"), 1, 7,
     "a `:` is missing between a key and its value", "write \"name\": \"tray\""},
    {"a missing value is refused", SHEET_JSON, BYTES("[{\"a\":}]"), 1, 7,
     "this does not belong here", "look for a missing or extra comma, quote or value"},
    {"a line break inside a text is refused where it stands", SHEET_JSON,
     BYTES("[{\"a\":\"x\ny\"}]"), 1, 9, CONTROL},
    {"a tab inside a text is refused where it stands", SHEET_JSON,
     BYTES("[{\"a\":\"\xC3\xA9\t\"}]"), 1, 9, CONTROL},
    {"an escape that JSON lacks is refused", SHEET_JSON, BYTES("[{\"a\":\"\\x41\"}]"), 1, 9,
     "a `\\` comes before a character that it cannot be combined with",
     "write \\\\ for a single \\"},
    {"an escape without its digits is refused", SHEET_JSON, BYTES("[{\"a\":\"\\u12g4\"}]"), 1, 12,
     "`\\u` needs four hexadecimal digits", "write the character itself"},
    {"an escaped zero byte is refused", SHEET_JSON, BYTES("[{\"a\":\"\\\\\\u0000\"}]"), 1, 10,
     ZERO},
    {"the first half of a pair alone is refused", SHEET_JSON, BYTES("[{\"a\":\"\\uD83C\"}]"), 1, 8,
     HALF},
    {"the first half of a pair before another character is refused", SHEET_JSON,
     BYTES("[{\"a\":\"\\uD83C\\u0041\"}]"), 1, 8, HALF},
    {"the second half of a pair alone is refused", SHEET_JSON, BYTES("[{\"a\":\"x\\uDF33\"}]"), 1,
     9, HALF},
    {"text behind the sheet is refused", SHEET_JSON, BYTES("[{\"a\":1}]\n[]"), 2, 1,
     "there is more text after the end of the sheet", "remove it"},
    {"NDJSON: two objects on a line are refused", SHEET_NDJSON, BYTES("{\"a\":1} {\"a\":2}\n"), 1,
     9, "a second object begins on this line", "put each object on a line of its own"},
    {"NDJSON: an object over two lines is refused", SHEET_NDJSON,
     BYTES("{\"a\":1}\n{\"a\":1,\n\"b\":2}"), 2, 8, ONE_LINE},
    {"NDJSON: a text over two lines is refused", SHEET_NDJSON, BYTES("{\"a\":\"x\r\ny\"}"), 1, 8,
     ONE_LINE},
    {"NDJSON: a list is refused", SHEET_NDJSON, BYTES("[{\"a\":1}]"), 1, 1,
     "a line must be one object, but this is a list",
     "name the sheet .json if all of it is one list"},
    {"NDJSON: a number is refused", SHEET_NDJSON, BYTES("{\"a\":1}\n\n12\n"), 3, 1,
     "a line must be one object, but this is a number", ROW_HELP},
    {"NDJSON: a number at the very end is refused", SHEET_NDJSON, BYTES("{\"a\":1}\n12"), 2, 1,
     "a line must be one object, but this is a number", ROW_HELP},
    {"NDJSON: a comma between lines is refused", SHEET_NDJSON, BYTES("{\"a\":1},\n{\"a\":2}\n"), 1,
     8, "this does not belong here", "look for a missing or extra comma, quote or value"},
    {"NDJSON: a bracket too many is refused", SHEET_NDJSON, BYTES("{\"a\":1}}\n"), 1, 8,
     "this does not belong here", "look for a missing or extra comma, quote or value"},
    {"NDJSON: a word that the line's end cuts off is refused", SHEET_NDJSON,
     BYTES("{\"a\":1}\ntru\n"), 2, 1, "this word is not JSON", "put text in double quotes"},
};

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_array_of_objects_is_rows_and_their_keys_are_columns),
        cmocka_unit_test(columns_are_all_keys_in_the_order_in_which_they_first_appear),
        cmocka_unit_test(numbers_keep_the_text_they_are_written_with),
        cmocka_unit_test(numbers_with_an_exponent_are_written_out),
        cmocka_unit_test(a_line_that_cannot_be_read_does_not_stop_those_after_it),
        cmocka_unit_test(a_cell_that_cannot_be_read_leaves_its_row_and_the_others),
        cmocka_unit_test(true_and_false_become_yes_and_no),
        cmocka_unit_test(null_and_an_empty_text_are_absent_and_their_column_stays),
        cmocka_unit_test(an_object_becomes_parts_in_its_own_order),
        cmocka_unit_test(parts_without_an_amount_are_left_out),
        cmocka_unit_test(escapes_are_read_as_the_characters_they_stand_for),
        cmocka_unit_test(texts_keep_their_spaces_and_keys_lose_those_around_them),
        cmocka_unit_test(an_empty_array_is_a_sheet_of_no_rows),
        cmocka_unit_test(an_empty_object_is_a_row_without_cells),
        cmocka_unit_test(a_byte_order_mark_is_passed_over),
        cmocka_unit_test(a_row_knows_the_line_its_object_begins_on),
        cmocka_unit_test(ndjson_is_one_object_a_line_and_blank_lines_are_passed_over),
        cmocka_unit_test(a_key_of_the_sheet_may_be_a_part_too),
        cmocka_unit_test(a_million_rows_on_one_line_are_read),
        cmocka_unit_test(rows_with_keys_of_their_own_cost_only_their_cells),
        cmocka_unit_test(more_than_a_thousand_parts_are_refused),
    };
    return run_with_wrong("json", tests, sizeof tests / sizeof *tests, wrong_sheets,
                          sizeof wrong_sheets / sizeof *wrong_sheets);
}
