#include "sheet/reader.h"

#include <string.h>

static const char *const form_words[] = {
    [SHEET_CSV] = "csv", [SHEET_TSV] = "tsv", [SHEET_JSON] = "json", [SHEET_NDJSON] = "ndjson"};

/* The C library's tolower is not used because it depends on the host's locale. */
static bool same_word(const char *text, const char *word)
{
    for (; *text && *word; text++, word++) {
        char small = *text >= 'A' && *text <= 'Z' ? (char)(*text - 'A' + 'a') : *text;
        if (small != *word)
            return false;
    }
    return *text == *word;
}

bool sheet_form_of_word(const char *word, enum sheet_form *form)
{
    for (size_t i = 0; i < sizeof form_words / sizeof *form_words; i++) {
        if (same_word(word, form_words[i])) {
            *form = (enum sheet_form)i;
            return true;
        }
    }
    return false;
}

bool sheet_form_of_name(const char *file_name, enum sheet_form *form)
{
    const char *point = strrchr(file_name, '.');
    return point && sheet_form_of_word(point + 1, form);
}

static bool read_form(enum sheet_form form, struct sheet_source *source, struct sheet *sheet)
{
    if (source->length > SHEET_BYTES_MAX)
        return sheet_fail(source, SHEET_NO_PLACE, "split the sheet",
                          "the sheet is larger than 4 GB");
    if (!sheet_source_check(source))
        return false;
    if (form == SHEET_JSON || form == SHEET_NDJSON)
        return sheet_read_json(source, form == SHEET_NDJSON, sheet);
    return sheet_read_separated(source, form, sheet);
}

struct sheet *sheet_read(enum sheet_form form, const char *bytes, size_t length,
                         struct sheet_error *error)
{
    struct sheet_source source = {bytes, length, error};
    struct sheet *sheet = sheet_grid_open();
    if (!sheet) {
        sheet_fail_memory(&source);
        return NULL;
    }
    if (!read_form(form, &source, sheet)) {
        sheet_free(sheet);
        return NULL;
    }
    return sheet;
}
