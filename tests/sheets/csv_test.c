/* CSV and TSV sheets. The tests of RFC 4180 cite its section. */
#include "sheets/sheet_checks.h"

/* ---- RFC 4180, section 2 ---- */

static void rfc_4180_section_2_1_each_record_is_a_line_ended_by_cr_lf(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", 2, 3, "a", "b", "c", "aaa", "bbb",
           "ccc", "zzz", "yyy", "xxx");
}

static void rfc_4180_section_2_2_the_last_record_may_lack_its_line_break(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx", 2, 3, "a", "b", "c", "aaa", "bbb",
           "ccc", "zzz", "yyy", "xxx");
}

/* A header line is optional there; a product sheet cannot do without. */
static void rfc_4180_section_2_3_the_first_line_is_the_headings(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "field_name,field_name_2\r\naaa,bbb\r\n", 1, 2, "field_name", "field_name_2",
           "aaa", "bbb");
}

static void rfc_4180_section_2_4_fields_are_separated_by_commas(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\naaa,b b,ccc\r\n", 1, 3, "a", "b", "c", "aaa", "b b", "ccc");
}

/* "Spaces are considered part of a field": a maker's sheet is read without those at its edges. */
static void rfc_4180_section_2_4_differs_spaces_around_an_unquoted_cell_are_dropped(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a , b\r\n  oak tray , \" x \" \r\n", 1, 2, "a", "b", "oak tray", " x ");
}

/* "Each line should contain the same number of fields": a shorter one lacks its last cells. */
static void rfc_4180_section_2_4_differs_a_short_row_has_its_last_cells_absent(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\n1\r\n1,2\r\n", 2, 3, "a", "b", "c", "1", NULL, NULL, "1", "2",
           NULL);
}

static void rfc_4180_section_2_5_a_field_may_be_in_quotes_or_not(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "\"a\",b\r\n\"aaa\",bbb\r\nzzz,\"yyy\"\r\n", 2, 2, "a", "b", "aaa", "bbb",
           "zzz", "yyy");
}

/* "Double quotes may not appear inside the fields" there, but spreadsheets write and read inches. */
static void rfc_4180_section_2_5_differs_a_quote_inside_an_unquoted_cell_is_itself(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "na\"me,size\ndowel,3/4\"\nplate \"rim\", 3/4\" dowel\n", 2, 2, "na\"me",
           "size", "dowel", "3/4\"", "plate \"rim\"", "3/4\" dowel");
    EXPECT(SHEET_TSV, "a\tb\n\xC3\xA9\t5\"\n", 1, 2, "a", "b", "\xC3\xA9", "5\"");
    EXPECT(SHEET_CSV, "width 5\";a,b;c\n1;2\n", 1, 3, "width 5\"", "a,b", "c", "1", "2", NULL);
}

static void rfc_4180_section_2_6_quotes_enclose_line_breaks_quotes_and_commas(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\n\"aaa\",\"b\r\nbb\",\"c,cc\"\r\nzzz,yyy,xxx", 2, 3, "a", "b", "c",
           "aaa", "b\r\nbb", "c,cc", "zzz", "yyy", "xxx");
}

static void rfc_4180_section_2_7_two_quotes_inside_quotes_are_one(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\r\n\"aaa\",\"b\"\"bb\",\"\"\"c\"\"\"\r\n", 1, 3, "a", "b", "c", "aaa",
           "b\"bb", "\"c\"");
}

/* ---- what else a sheet may hold ---- */

static void headings_alone_are_a_sheet_of_no_rows(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "name,price", 0, 2, "name", "price");
    EXPECT(SHEET_TSV, "name\tprice\n\n", 0, 2, "name", "price");
}

static void lines_may_end_in_lf_or_a_lone_cr(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b\n1,2\n", 1, 2, "a", "b", "1", "2");
    EXPECT(SHEET_CSV, "a,b\r1,2\r3,4", 2, 2, "a", "b", "1", "2", "3", "4");
}

static void a_byte_order_mark_is_passed_over(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "\xEF\xBB\xBF\"a\",b\n1,2\n", 1, 2, "a", "b", "1", "2");
    EXPECT(SHEET_TSV,
           "\xEF\xBB\xBF"
           "a\tb\n1\t2\n",
           1, 2, "a", "b", "1", "2");
}

static void semicolons_separate_when_the_heading_line_has_more_of_them(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "name;price\ntray;12,50\n", 1, 2, "name", "price", "tray", "12,50");
    EXPECT(SHEET_CSV, "\n;;\n\"name, in full; all\";price\ntray;12,50\n", 1, 2,
           "name, in full; all", "price", "tray", "12,50");
    EXPECT(SHEET_CSV, "\"a;b;c\",d\n1;2,3\n", 1, 2, "a;b;c", "d", "1;2", "3");
}

static void a_single_column_needs_no_separator(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "name\ntray\nbowl; round\n", 2, 1, "name", "tray", "bowl; round");
}

static void tabs_separate_a_tsv_and_its_commas_are_text(void **state)
{
    (void)state;
    EXPECT(SHEET_TSV, "a\tb\tc\n1,5\t\t x \n\t2\n", 2, 3, "a", "b", "c", "1,5", NULL, "x", NULL,
           "2", NULL);
    EXPECT(SHEET_TSV, "a\tb\n\"x\ty\"\t\"3/4\"\"\"\n", 1, 2, "a", "b", "x\ty", "3/4\"");
}

static void an_empty_cell_is_absent_in_quotes_too(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,b,c\n1,,3\n1,\"\",\n,  ,3\n", 3, 3, "a", "b", "c", "1", NULL, "3", "1",
           NULL, NULL, NULL, NULL, "3");
}

static void blank_lines_and_lines_of_separators_are_passed_over(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "\n , \na,b\n\n1,2\n  \n,\n,,,,\n\"\"\n3,4\n\n", 2, 2, "a", "b", "1", "2",
           "3", "4");
    EXPECT(SHEET_TSV, "a\tb\n\t\n \t \n1\t2\n", 1, 2, "a", "b", "1", "2");
}

static void a_column_without_heading_and_cells_is_left_out(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "a,,b,\n1,,2,\n3, ,4\n", 2, 2, "a", "b", "1", "2", "3", "4");
}

static void headings_lose_the_spaces_inside_their_quotes(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "\" a \",\"b\n\"\n1,2\n", 1, 2, "a", "b", "1", "2");
}

static void headings_may_differ_in_case_only(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "name,Name\n1,2\n", 1, 2, "name", "Name", "1", "2");
}

static void a_row_knows_its_line_behind_blank_lines_and_quoted_line_breaks(void **state)
{
    (void)state;
    struct sheet *sheet = read_fine(SHEET_CSV, "\r\na,b\r\n1,2\r\n\r\n\"x\r\n\r\ny\",3\r\n"
                                               ",\r\n  \"\rz\",4\n5,6");
    const size_t lines[] = {3, 5, 9, 11};
    assert_int_equal(sheet_row_count(sheet), 4);
    for (size_t row = 0; row < 4; row++)
        assert_int_equal(sheet_row_line(sheet, row), lines[row]);
    expect_text(sheet_cell(sheet, 1, 0), "x\r\n\r\ny");
    sheet_free(sheet);
}

static void characters_of_every_length_are_kept(void **state)
{
    (void)state;
    EXPECT(SHEET_CSV, "nom\nch\xC3\xAAne \xE2\x82\xAC 5 \xF0\x9F\x8C\xB3\n", 1, 1, "nom",
           "ch\xC3\xAAne \xE2\x82\xAC 5 \xF0\x9F\x8C\xB3");
}

static void a_cell_of_eight_million_bytes_is_kept_whole(void **state)
{
    (void)state;
    size_t length = 8000000;
    char *text = malloc(length + 16);
    assert_non_null(text);
    memcpy(text, "a,b\n", 4);
    memset(text + 4, 'x', length);
    memcpy(text + 4 + length, ",y\n", 3);
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_CSV, text, length + 7, &error);
    assert_non_null(sheet);
    assert_int_equal(sheet_cell(sheet, 0, 0).length, length);
    assert_memory_equal(sheet_cell(sheet, 0, 0).start, text + 4, length);
    expect_text(sheet_cell(sheet, 0, 1), "y");
    sheet_free(sheet);
    free(text);
}

static void a_million_rows_are_read_with_their_lines(void **state)
{
    (void)state;
    const size_t rows = 1000000, width = 17;
    char *text = malloc(rows * width + 32), *end = text;
    assert_non_null(text);
    end += sprintf(end, "name,price\n");
    for (size_t row = 0; row < rows; row++)
        end += sprintf(end, "tray %07zu,%zu\n", row, row % 10);
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_CSV, text, (size_t)(end - text), &error);
    free(text);
    assert_non_null(sheet);
    assert_int_equal(sheet_row_count(sheet), rows);
    expect_text(sheet_cell(sheet, 765432, 0), "tray 0765432");
    expect_text(sheet_cell(sheet, 999999, 1), "9");
    assert_int_equal(sheet_row_line(sheet, 999999), rows + 1);
    sheet_free(sheet);
}

static void what_lies_outside_the_sheet_is_absent(void **state)
{
    (void)state;
    struct sheet *sheet = read_fine(SHEET_CSV, "a\n1\n");
    expect_text(sheet_cell(sheet, 1, 0), NULL);
    expect_text(sheet_cell(sheet, 0, 1), NULL);
    expect_text(sheet_heading(sheet, 1), NULL);
    assert_int_equal(sheet_row_line(sheet, 1), 0);
    sheet_free(sheet);
    sheet_free(NULL);
}

static void as_many_columns_as_a_spreadsheet_has_are_read_and_one_more_is_not(void **state)
{
    (void)state;
    char *text = malloc(17000 * 8), *end = text;
    assert_non_null(text);
    for (int column = 0; column < 16384; column++)
        end += sprintf(end, "c%d,", column);
    struct sheet_error error;
    struct sheet *sheet = sheet_read(SHEET_CSV, text, (size_t)(end - text - 1), &error);
    assert_non_null(sheet);
    assert_int_equal(sheet_column_count(sheet), 16384);
    expect_text(sheet_heading(sheet, 16383), "c16383");
    sheet_free(sheet);
    end += sprintf(end, "more\n");
    assert_null(sheet_read(SHEET_CSV, text, (size_t)(end - text), &error));
    assert_string_equal(error.message, "the sheet has more than 16384 columns");
    free(text);
}

static void a_name_tells_its_form_by_its_ending_in_any_case(void **state)
{
    (void)state;
    enum sheet_form form = SHEET_CSV;
    assert_true(sheet_form_of_name("shop/products.v2.TSV", &form));
    assert_int_equal(form, SHEET_TSV);
    assert_true(sheet_form_of_name("products.NDJson", &form));
    assert_int_equal(form, SHEET_NDJSON);
    assert_true(sheet_form_of_name(".json", &form));
    assert_int_equal(form, SHEET_JSON);
    assert_true(sheet_form_of_name("a.csv", &form));
    assert_int_equal(form, SHEET_CSV);
    assert_false(sheet_form_of_name("csv", &form));
    assert_false(sheet_form_of_name("products.xlsx", &form));
    assert_false(sheet_form_of_name("products.csv/readme", &form));
    assert_false(sheet_form_of_name("products.", &form));
    assert_true(sheet_form_of_word("csv", &form));
    assert_false(sheet_form_of_word("csvs", &form));
    assert_false(sheet_form_of_word("", &form));
}

static void a_long_heading_is_shown_short_and_without_control_characters(void **state)
{
    (void)state;
    struct sheet_error error;
    const char text[] = "a\x1B[31m\n\xC2\x9B \xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
                        "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9 and so on and so on";
    char sheet[512];
    int length = snprintf(sheet, sizeof sheet, "\"%s\",\"%s\"\n", text, text);
    assert_null(sheet_read(SHEET_CSV, sheet, (size_t)length, &error));
    assert_string_equal(error.message,
                        "columns 1 and 2 both have the heading `a [31m   "
                        "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
                        "\xC3\xA9\xC3\xA9\xC3\xA9 and so on and so o\xE2\x80\xA6`");
}

static void a_row_that_cannot_be_read_does_not_stop_those_after_it(void **state)
{
    (void)state;
    struct sheet *sheet =
        read_fine(SHEET_CSV, "a,b\n1,2,3\n\"x\"y,4\n5,\"oak\n6,\"larch\"\n7,\xFF\n"
                             "8,9\n");
    const char *const first[] = {NULL, NULL, NULL, "6", NULL, "8"};
    const size_t lines[] = {2, 3, 4, 5, 6, 7};
    assert_int_equal(sheet_row_count(sheet), 6);
    for (size_t row = 0; row < 6; row++) {
        struct sheet_error why;
        expect_text(sheet_cell(sheet, row, 0), first[row]);
        assert_int_equal(sheet_row_line(sheet, row), lines[row]);
        assert_int_equal(sheet_row_trouble(sheet, row, &why), first[row] == NULL);
    }
    expect_text(sheet_cell(sheet, 3, 1), "larch");
    sheet_free(sheet);
}

/* Rows of several thousand bytes, with CR LF, quotes and characters of several bytes at every place
 * of a block's border. */
static void rows_straddle_the_borders_of_blocks(void **state)
{
    (void)state;
    const size_t rows = 30000;
    char *text = malloc(rows * 64 + 16), *end = text;
    assert_non_null(text);
    end += sprintf(end, "name,note\r\n");
    for (size_t row = 0; row < rows; row++)
        end += sprintf(end, "%zu,\"\xC3\xAA\"\"%.*s\r\n\"\r\n", row, (int)(row % 17),
                       "\xE2\x82\xAC\xE2\x82\xAC\xE2\x82\xAC\xE2\x82\xAC\xE2\x82\xAC\xE2\x82\xAC");
    size_t length = (size_t)(end - text);
    for (size_t most = SHEET_BLOCK; most > 60000; most -= 21013) {
        struct drops drops = {text, length, most};
        struct sheet_error error, why;
        struct sheet *sheet = sheet_open(SHEET_CSV, SHEET_BLOCK, give_drops, &drops, &error);
        size_t row = 0, blocks = 0;
        assert_non_null(sheet);
        do {
            for (; row < sheet_row_count(sheet); row++) {
                char name[32];
                snprintf(name, sizeof name, "%zu", row);
                bool cut = row % 17 % 3 != 0; /* inside a character */
                expect_text(sheet_cell(sheet, row, 0), cut ? NULL : name);
                assert_int_equal(sheet_row_line(sheet, row), 2 * row + 2);
                assert_int_equal(sheet_row_trouble(sheet, row, &why), cut);
                if (!cut)
                    assert_int_equal(sheet_cell(sheet, row, 1).length, 2 + 1 + row % 17 + 2);
            }
            blocks++;
        } while (sheet_next(sheet, &error) == SHEET_ROWS);
        assert_int_equal(row, rows);
        assert_true(blocks > 5);
        sheet_free(sheet);
    }
    free(text);
}

/* A quote that is never closed would make all the rest one row. */
static void a_row_longer_than_sixteen_megabytes_breaks_a_sheet_in_blocks(void **state)
{
    (void)state;
    size_t length = 17 << 20;
    char *text = malloc(length);
    assert_non_null(text);
    memset(text, 'x', length);
    memcpy(text, "a\n1\n\"", 5);
    struct drops drops = {text, length, length};
    struct sheet_error error;
    struct sheet *sheet = sheet_open(SHEET_CSV, SHEET_BLOCK, give_drops, &drops, &error);
    assert_non_null(sheet);
    expect_text(sheet_cell(sheet, 0, 0), "1");
    assert_int_equal(sheet_next(sheet, &error), SHEET_BROKEN);
    assert_string_equal(error.message, "this row is longer than 16 MB");
    assert_int_equal(error.line, 3);
    sheet_free(sheet);
    free(text);
}

static size_t give_one_row(void *context, char *bytes, size_t room, bool *last)
{
    size_t *calls = context;
    (void)room;
    *last = false;
    if (++*calls > 2)
        return SHEET_GIVES_NONE;
    memcpy(bytes, *calls == 1 ? "a\n1\n" : "2\n3", *calls == 1 ? 4 : 3);
    return *calls == 1 ? 4 : 3;
}

static void rows_are_in_hand_before_the_next_bytes_are_asked_for(void **state)
{
    (void)state;
    size_t calls = 0;
    struct sheet_error error = {.message = "as it was"};
    struct sheet *sheet = sheet_open(SHEET_CSV, SHEET_BLOCK, give_one_row, &calls, &error);
    assert_non_null(sheet);
    assert_int_equal(calls, 1);
    expect_text(sheet_cell(sheet, 0, 0), "1");
    assert_int_equal(sheet_next(sheet, &error), SHEET_ROWS);
    assert_int_equal(calls, 2);
    expect_text(sheet_cell(sheet, 0, 0), NULL);
    expect_text(sheet_cell(sheet, 1, 0), "2");
    assert_int_equal(sheet_next(sheet, &error), SHEET_BROKEN);
    assert_string_equal(error.message, "");
    sheet_free(sheet);
}

/* ---- wrong sheets ---- */

#define EMPTY "the sheet is empty", "export the sheet again, with its headings"
#define SAVE_AS_UTF_8 "save it as UTF-8"
#define BEHIND "write a quote inside a quoted cell twice, or close the cell where it ends"
#define UNCLOSED                                                                                   \
    "the quote that opens this cell is never closed",                                              \
        "close the cell with another quote, or remove this one"
#define TOO_MANY "put a cell with a separator inside it in quotes, or remove the extra cells"
#define RENAME "rename or remove one of them"
#define NO_HEADING_HELP "give the column a heading, or empty its cells"

static struct wrong_sheet wrong_sheets[] = {
    {"an empty file is refused", SHEET_CSV, BYTES(""), 0, 0, EMPTY},
    {"a file of a byte-order mark is refused", SHEET_CSV, BYTES("\xEF\xBB\xBF"), 0, 0, EMPTY},
    {"a file of blank lines is refused", SHEET_TSV, BYTES(" \r\n\t\n"), 0, 0, EMPTY},
    {"a file of separators is refused", SHEET_CSV, BYTES(",,\n,,\n"), 0, 0, EMPTY},
    {"UTF-16 with its low byte first is named", SHEET_CSV, BYTES("\xFF\xFE\x61\0"), 0, 0,
     "the sheet is in UTF-16, not in UTF-8", SAVE_AS_UTF_8},
    {"UTF-16 with its high byte first is named", SHEET_TSV, BYTES("\xFE\xFF\0\x61"), 0, 0,
     "the sheet is in UTF-16, not in UTF-8", SAVE_AS_UTF_8},
    {"a spreadsheet's packed file is named", SHEET_CSV, BYTES("PK\x03\x04\x14\0"), 0, 0,
     "this is a spreadsheet's own file (or another packed file), not text",
     "save the sheet as CSV in UTF-8"},
    {"an old spreadsheet's file is named", SHEET_CSV, BYTES("\xD0\xCF\x11\xE0\xA1\xB1"), 0, 0,
     "this is a spreadsheet's own file, not text", "save the sheet as CSV in UTF-8"},
    {"a zero byte is refused with its place", SHEET_CSV, BYTES("a,b\n1,\0\n"), 2, 3,
     "there is a zero byte here, so this is not a text file",
     "save the sheet as plain text in UTF-8"},
    {"a Latin-1 letter is refused with its place", SHEET_CSV, BYTES("a\n\xC3\xA9 ch\xEAne\n"), 2, 5,
     "the byte EA here is not valid UTF-8", "save the sheet as UTF-8"},
    {"an overlong form is refused", SHEET_CSV, BYTES("a\n\xE0\x80\xAF"), 2, 1,
     "the byte E0 here is not valid UTF-8", "save the sheet as UTF-8"},
    {"an encoded surrogate is refused", SHEET_CSV, BYTES("a\r\nx\xED\xA0\x80"), 2, 2,
     "the byte ED here is not valid UTF-8", "save the sheet as UTF-8"},
    {"a character above the last is refused", SHEET_CSV, BYTES("a\rxy\xF4\x90\x80\x80"), 2, 3,
     "the byte F4 here is not valid UTF-8", "save the sheet as UTF-8"},
    {"a character cut off by the end is refused", SHEET_CSV, BYTES("a\nb\xE2\x82"), 2, 2,
     "the byte E2 here is not valid UTF-8", "save the sheet as UTF-8"},
    {"a continuation byte alone is refused", SHEET_TSV, BYTES("a\n\x80"), 2, 1,
     "the byte 80 here is not valid UTF-8", "save the sheet as UTF-8"},
    {"text behind a closing quote is refused (RFC 4180, section 2.7)", SHEET_CSV,
     BYTES("a,b\n1,\"3/4\"x\n"), 2, 8,
     "there is text after the quote that closes this cell, which opened on line 2", BEHIND},
    {"a quote behind a closing quote and a space is refused", SHEET_CSV, BYTES("a\n\"x\" \"y\"\n"),
     2, 5, "there is text after the quote that closes this cell, which opened on line 2", BEHIND},
    {"a forgotten closing quote is told by the line it opened on", SHEET_CSV,
     BYTES("a,b\n1,\"oak\n2,\"larch\"\n3,fir\n"), 3, 4,
     "there is text after the quote that closes this cell, which opened on line 2", BEHIND},
    {"a quote that is never closed is refused where it opens (RFC 4180, section 2.5)", SHEET_CSV,
     BYTES("a,b\n1,2\n\"x\"\"y\", \"oak\n3,4\n"), 3, 9, UNCLOSED},
    {"a heading that is never closed is refused", SHEET_CSV, BYTES("a,\"b\n1,2\n"), 1, 3, UNCLOSED},
    {"a doubled quote at the end does not close", SHEET_TSV, BYTES("a\n\"x\"\"\n"), 2, 1, UNCLOSED},
    {"a row with more cells than headings is refused", SHEET_CSV, BYTES("a,b\n1,2\n3,4,5,6\n"), 3,
     5, "this row has 4 cells, but the sheet has 2 headings", TOO_MANY},
    {"a comma behind the last cell is refused (RFC 4180, section 2.4)", SHEET_CSV,
     BYTES("a,b\n1,2,\n"), 2, 5, "this row has 3 cells, but the sheet has 2 headings", TOO_MANY},
    {"a row that breaks inside quotes is refused at its cell", SHEET_CSV,
     BYTES("a,b\n\"1\n,\",2, \"3\"\n"), 3, 7, "this row has 3 cells, but the sheet has 2 headings",
     TOO_MANY},
    {"an unquoted decimal comma is one cell too many", SHEET_CSV, BYTES("name,price\ntray,12,50\n"),
     2, 9, "this row has 3 cells, but the sheet has 2 headings", TOO_MANY},
    {"a repeated heading is refused with both columns", SHEET_CSV, BYTES("name,price,,\" name\"\n"),
     1, 13, "columns 1 and 4 both have the heading `name`", RENAME},
    {"a repeated heading of a sheet with semicolons is refused", SHEET_CSV, BYTES("\n a ; a ;b\n"),
     2, 6, "columns 1 and 2 both have the heading `a`", RENAME},
    {"a cell under an empty heading is refused", SHEET_CSV, BYTES("a,,b\n1,,2\n1, note,2\n"), 3, 4,
     "column 2 has no heading, but this cell contains `note`", NO_HEADING_HELP},
    {"a cell under an empty last heading is refused", SHEET_TSV, BYTES("a\t\n1\t2\n"), 2, 3,
     "column 2 has no heading, but this cell contains `2`", NO_HEADING_HELP},
};

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rfc_4180_section_2_1_each_record_is_a_line_ended_by_cr_lf),
        cmocka_unit_test(rfc_4180_section_2_2_the_last_record_may_lack_its_line_break),
        cmocka_unit_test(rfc_4180_section_2_3_the_first_line_is_the_headings),
        cmocka_unit_test(rfc_4180_section_2_4_fields_are_separated_by_commas),
        cmocka_unit_test(rfc_4180_section_2_4_differs_spaces_around_an_unquoted_cell_are_dropped),
        cmocka_unit_test(rfc_4180_section_2_4_differs_a_short_row_has_its_last_cells_absent),
        cmocka_unit_test(rfc_4180_section_2_5_a_field_may_be_in_quotes_or_not),
        cmocka_unit_test(rfc_4180_section_2_5_differs_a_quote_inside_an_unquoted_cell_is_itself),
        cmocka_unit_test(rfc_4180_section_2_6_quotes_enclose_line_breaks_quotes_and_commas),
        cmocka_unit_test(rfc_4180_section_2_7_two_quotes_inside_quotes_are_one),
        cmocka_unit_test(headings_alone_are_a_sheet_of_no_rows),
        cmocka_unit_test(lines_may_end_in_lf_or_a_lone_cr),
        cmocka_unit_test(a_byte_order_mark_is_passed_over),
        cmocka_unit_test(semicolons_separate_when_the_heading_line_has_more_of_them),
        cmocka_unit_test(a_single_column_needs_no_separator),
        cmocka_unit_test(tabs_separate_a_tsv_and_its_commas_are_text),
        cmocka_unit_test(an_empty_cell_is_absent_in_quotes_too),
        cmocka_unit_test(blank_lines_and_lines_of_separators_are_passed_over),
        cmocka_unit_test(a_column_without_heading_and_cells_is_left_out),
        cmocka_unit_test(headings_lose_the_spaces_inside_their_quotes),
        cmocka_unit_test(headings_may_differ_in_case_only),
        cmocka_unit_test(a_row_knows_its_line_behind_blank_lines_and_quoted_line_breaks),
        cmocka_unit_test(characters_of_every_length_are_kept),
        cmocka_unit_test(a_cell_of_eight_million_bytes_is_kept_whole),
        cmocka_unit_test(a_million_rows_are_read_with_their_lines),
        cmocka_unit_test(what_lies_outside_the_sheet_is_absent),
        cmocka_unit_test(as_many_columns_as_a_spreadsheet_has_are_read_and_one_more_is_not),
        cmocka_unit_test(a_row_that_cannot_be_read_does_not_stop_those_after_it),
        cmocka_unit_test(rows_straddle_the_borders_of_blocks),
        cmocka_unit_test(a_row_longer_than_sixteen_megabytes_breaks_a_sheet_in_blocks),
        cmocka_unit_test(rows_are_in_hand_before_the_next_bytes_are_asked_for),
        cmocka_unit_test(a_name_tells_its_form_by_its_ending_in_any_case),
        cmocka_unit_test(a_long_heading_is_shown_short_and_without_control_characters),
    };
    return run_with_wrong("csv", tests, sizeof tests / sizeof *tests, wrong_sheets,
                          sizeof wrong_sheets / sizeof *wrong_sheets);
}
