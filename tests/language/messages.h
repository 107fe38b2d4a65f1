/* Every message that the stages from text to program can give, taken from their sources, so that a
 * new one without a golden file is noticed.
 *
 * A source is read as C text: a call of one of the functions below is found by its name, its
 * arguments are parted at commas, and the literals of the one that is the message are its fixed
 * words. `cond ? "a" : "b"` is two messages. What `%s` stands for is anything. */
#ifndef GROAT_MESSAGES_H
#define GROAT_MESSAGES_H

#include <ctype.h>
#include <dirent.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "language/text_file.h"

/* Functions that say something, and which argument is the message, from 0. A part is a message that
 * stands inside a longer one. */
static const struct {
    const char *name;
    int argument;
    bool part;
} messages_functions[] = {
    {"diagnostics_error", 3, false}, {"diagnostics_warning", 3, false}, {"check_refuse", 3, false},
    {"complain", 2, false},          {"report_limit", 2, false},        {"report", 2, true},
    {"flow_bad", 2, true},
};

static const struct {
    const char *folder, *ending;
} messages_folders[] = {
    {"grammar/", ".c"},      {"grammar/", ".re"},       {"engine/names/", ".c"},
    {"engine/types/", ".c"}, {"engine/compile/", ".c"}, {"engine/library/expect.c", ""},
};

/* Messages without a golden file, each with the reason. */
static const struct {
    const char *message, *reason;
} messages_excepted[] = {
    {"there is no memory left for this number", "tests/fault lets every allocation fail"},
    {"this text cannot be read at all", "the parser gives up only after another error"},
};

enum { MESSAGE_MOST = 400 };

struct message {
    char words[MESSAGE_MOST]; /* `%` stands for anything; a percent sign is `\1` */
    const char *file;         /* where it is said */
    bool part, met;
};

struct messages {
    struct message *items;
    size_t count;
};

/* ---- reading C ---- */

/* The end of a text or character literal that begins at `at`. */
static inline const char *messages_literal_end(const char *at)
{
    char quote = *at++;
    while (*at && *at != quote)
        at += *at == '\\' && at[1] ? 2 : 1;
    return *at ? at + 1 : at;
}

/* Adds a literal's text to the words: escapes read, conversions made `%`. */
static inline void messages_add_literal(char *words, const char *from, const char *end)
{
    size_t length = strlen(words);
    for (from++; from < end - 1 && length + 1 < MESSAGE_MOST; from++) {
        if (*from == '\\' && from + 1 < end - 1) {
            words[length++] = *++from;
        } else if (*from == '%' && from[1] == '%') {
            words[length++] = '\1';
            from++;
        } else if (*from == '%') {
            from++;
            from += strspn(from, "-+ #0123456789.*lzhj"); /* at the letter of the conversion */
            words[length++] = '%';
        } else {
            words[length++] = *from;
        }
    }
    words[length] = '\0';
}

static inline void messages_add(struct messages *messages, const char *words, const char *file,
                                bool part)
{
    bool fixed = false;
    for (const char *at = words; *at; at++)
        fixed = fixed || isalpha((unsigned char)*at);
    if (!fixed)
        return; /* `%s` alone: the words come from elsewhere */
    for (size_t i = 0; i < messages->count; i++)
        if (strcmp(messages->items[i].words, words) == 0)
            return;
    messages->items = realloc(messages->items, (messages->count + 1) * sizeof *messages->items);
    if (!messages->items)
        abort();
    struct message *message = &messages->items[messages->count++];
    *message = (struct message){.file = file, .part = part};
    snprintf(message->words, sizeof message->words, "%s", words);
}

/* The literals of one argument of the call whose parenthesis stands at `at`. */
static inline void messages_of_call(struct messages *messages, const char *at, int wanted,
                                    const char *file, bool part)
{
    char words[MESSAGE_MOST] = "";
    int depth = 0, argument = 0;
    do {
        bool of_wanted = argument == wanted && depth > 0;
        if (*at == '"' || *at == '\'') {
            const char *end = messages_literal_end(at);
            if (of_wanted && *at == '"')
                messages_add_literal(words, at, end);
            at = end;
            continue;
        }
        depth += (*at == '(' || *at == '{') - (*at == ')' || *at == '}');
        bool ends = (*at == ',' && depth == 1) || depth == 0;
        if (of_wanted && (ends || *at == ':' || *at == '?')) {
            messages_add(messages, words, file, part);
            words[0] = '\0';
        }
        argument += *at == ',' && depth == 1;
        at++;
    } while (*at && depth > 0);
}

static inline void messages_of_source(struct messages *messages, const char *text, const char *file)
{
    for (size_t i = 0; i < sizeof messages_functions / sizeof *messages_functions; i++) {
        const char *name = messages_functions[i].name;
        size_t length = strlen(name);
        for (const char *at = strstr(text, name); at; at = strstr(at + length, name)) {
            bool whole = at == text || (!isalnum((unsigned char)at[-1]) && at[-1] != '_');
            if (whole && at[length] == '(')
                messages_of_call(messages, at + length, messages_functions[i].argument, file,
                                 messages_functions[i].part);
        }
    }
}

/* ---- all of them ---- */

static inline void messages_of_file(struct messages *messages, const char *path, const char *folder)
{
    struct text_file source;
    if (!text_file_read(path, &source)) {
        fprintf(stderr, "%s cannot be read\n", path);
        abort();
    }
    messages_of_source(messages, source.text, folder);
    free(source.text);
}

static inline void messages_gather(struct messages *messages)
{
    *messages = (struct messages){0};
    for (size_t i = 0; i < sizeof messages_folders / sizeof *messages_folders; i++) {
        const char *name = messages_folders[i].folder, *ending = messages_folders[i].ending;
        if (!*ending) {
            messages_of_file(messages, name, name);
            continue;
        }
        DIR *folder = opendir(name);
        if (!folder)
            abort();
        for (struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
            char path[600];
            size_t length = strlen(entry->d_name), tail = strlen(ending);
            if (length <= tail || strcmp(entry->d_name + length - tail, ending) != 0)
                continue;
            snprintf(path, sizeof path, "%s%s", name, entry->d_name);
            messages_of_file(messages, path, name);
        }
        closedir(folder);
    }
}

static inline void messages_free(struct messages *messages)
{
    free(messages->items);
    *messages = (struct messages){0};
}

/* ---- which are met ---- */

/* Whether the text [at, end) is the words; `loose` lets more stand before and behind. */
static inline bool messages_fits(const char *words, const char *at, const char *end, bool loose)
{
    if (loose) {
        for (; at <= end; at++)
            for (const char *stop = at; stop <= end; stop++)
                if (messages_fits(words, at, stop, false))
                    return true;
        return false;
    }
    while (*words && *words != '%') {
        if (at == end || *at++ != (*words == '\1' ? '%' : *words))
            return false;
        words++;
    }
    if (!*words)
        return at == end;
    for (; at <= end; at++)
        if (messages_fits(words + 1, at, end, false))
            return true;
    return false;
}

static inline size_t messages_fixed(const struct message *message)
{
    size_t fixed = 0;
    for (const char *at = message->words; *at; at++)
        fixed += *at != '%';
    return fixed;
}

/* Of all whole messages that fit, the one with the most fixed words is meant. */
static inline void messages_meet_line(struct messages *messages, const char *at, const char *end)
{
    struct message *best = NULL;
    for (size_t i = 0; i < messages->count; i++) {
        struct message *message = &messages->items[i];
        if (message->part && !message->met)
            message->met = messages_fits(message->words, at, end, true);
        if (!message->part && messages_fits(message->words, at, end, false) &&
            (!best || messages_fixed(message) > messages_fixed(best)))
            best = message;
    }
    if (best)
        best->met = true;
}

/* Marks what is said in a golden file. */
static inline void messages_meet(struct messages *messages, const char *golden)
{
    static const char *const heads[] = {": error: ", ": warning: "};
    for (size_t i = 0; i < 2; i++) {
        const char *at = strstr(golden, heads[i]);
        for (; at; at = strstr(at, heads[i])) {
            at += strlen(heads[i]);
            messages_meet_line(messages, at, at + strcspn(at, "\n"));
        }
    }
}

/* Prints the messages that no golden file shows, and exceptions that are none; how many. */
static inline size_t messages_print_wrong(const struct messages *messages)
{
    size_t wrong = 0;
    size_t excepted = sizeof messages_excepted / sizeof *messages_excepted;
    for (size_t k = 0; k < excepted; k++) {
        bool needed = false;
        for (size_t i = 0; i < messages->count; i++)
            needed =
                needed || (strcmp(messages->items[i].words, messages_excepted[k].message) == 0 &&
                           !messages->items[i].met);
        if (!needed)
            fprintf(stderr, "needs no exception: %s\n", messages_excepted[k].message);
        wrong += !needed;
    }
    for (size_t i = 0; i < messages->count; i++) {
        const struct message *message = &messages->items[i];
        bool known = message->met;
        for (size_t k = 0; k < excepted && !known; k++)
            known = strcmp(message->words, messages_excepted[k].message) == 0;
        if (!known)
            fprintf(stderr, "no golden file shows: %s (%s)\n", message->words, message->file);
        wrong += !known;
    }
    return wrong;
}

#endif
