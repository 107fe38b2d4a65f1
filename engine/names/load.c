#include "names/load.h"

#include <string.h>

#include "parse.h"
#include "text/utf8.h"

/* The files being read, innermost first. A file that is already in this list uses itself. */
struct reading {
    const char *name;
    const struct reading *within;
};

struct chain {
    struct statement *first, *last;
};

static struct chain read_source(struct load *load, struct source *source,
                                const struct reading *within);

static void append(struct chain *chain, struct chain more)
{
    if (!more.first)
        return;
    if (chain->last)
        chain->last->next = more.first;
    else
        chain->first = more.first;
    chain->last = more.last;
}

static void note_use(struct load *load, struct source *user, struct source *used)
{
    if (load_uses(user, used))
        return;
    ARENA_ADD(load->arena, user->uses, used);
}

/* More files than any shop needs; stops an endless chain of files. */
enum { FILES_MOST = 200 };

/* Adds a text to the sources; NULL, with a diagnostic, if that is not possible. */
static struct source *enter(struct load *load, const char *name, const char *text, size_t length,
                            struct span from)
{
    bool lost = load->lost;
    load->lost = true; /* until the file was read */
    if (length > load->source_most) {
        struct source *empty = source_new(load->arena, name, "", 0);
        diagnostics_error(load->diagnostics, from.source ? from : (struct span){empty, 0, 0}, NULL,
                          "%s is larger than a rules file may be, which is %zu bytes", name,
                          load->source_most);
        return NULL;
    }
    if (load->count == FILES_MOST) {
        diagnostics_error(load->diagnostics, from, NULL, "a method may use at most %d files",
                          FILES_MOST);
        return NULL;
    }
    struct source *source = source_new(load->arena, name, text, length);
    source->number = (uint32_t)load->count;
    load->sources =
        arena_grow(load->arena, load->sources, sizeof *load->sources, &load->room, load->count + 1);
    load->sources[load->count++] = source;
    load->lost = lost;
    return source;
}

static struct chain read_used(struct load *load, struct source *user, const struct statement *use,
                              const struct reading *within)
{
    const struct loader *loader = load->loader;
    const char *name = use->text.text, *full_name = NULL, *text = NULL;
    size_t length = 0;
    if (!loader || !loader->load(loader->context, name, user->name, &full_name, &text, &length)) {
        diagnostics_error(load->diagnostics, use->text.span, NULL, "the file %s cannot be read",
                          name);
        load->lost = true;
        return (struct chain){0};
    }
    struct source *source = NULL;
    for (size_t i = 0; i < load->count && !source; i++)
        if (strcmp(load->sources[i]->name, full_name) == 0)
            source = load->sources[i];
    bool circle = false;
    for (const struct reading *outer = within; outer; outer = outer->within)
        circle = circle || strcmp(outer->name, full_name) == 0;
    bool known = source != NULL;
    if (circle)
        diagnostics_error(load->diagnostics, use->text.span, NULL,
                          "the file %s uses itself, directly or through other files", name);
    else if (!known)
        source = enter(load, full_name, text, length, use->text.span);
    if (circle || !source)
        return (struct chain){0};
    struct chain statements = known ? (struct chain){0} : read_source(load, source, within);
    note_use(load, user, source);
    for (size_t i = 0; i < source->uses_count; i++)
        note_use(load, user, source->uses[i]);
    return statements;
}

/* The statements of one text, `use` among them. */
static struct statement *read_text(struct load *load, struct source *source)
{
    size_t bad = text_bad_byte(source->text, source->length);
    if (bad < source->length) {
        struct span span = {source, (uint32_t)bad, (uint32_t)bad + 1};
        diagnostics_error(load->diagnostics, span, "save the file as UTF-8",
                          "this byte is not valid UTF-8");
        diagnostics_help_is(load->diagnostics, HELP_ADVICE);
        load->lost = true;
        return NULL;
    }
    struct parse parse = {load->arena, source, load->diagnostics, load->depth_most,
                          arena_take(load->arena, parse_room())};
    return parse_file(&parse, &load->lost);
}

static struct chain read_source(struct load *load, struct source *source,
                                const struct reading *within)
{
    struct reading reading = {source->name, within};
    struct chain own = {0}, all = {0};
    struct statement *next;
    for (struct statement *each = read_text(load, source); each; each = next) {
        next = each->next;
        each->next = NULL;
        if (each->kind == STATEMENT_USE)
            append(&all, read_used(load, source, each, &reading));
        else
            append(&own, (struct chain){each, each});
    }
    append(&all, own);
    return all;
}

struct source *load_alone(struct load *load, const char *name, const char *text, size_t length)
{
    struct source *source = enter(load, name, text, length, (struct span){0});
    if (source)
        read_text(load, source);
    return source;
}

struct statement *load_all(struct load *load, const char *name, const char *text, size_t length)
{
    struct source *source = enter(load, name, text, length, (struct span){0});
    return source ? read_source(load, source, NULL).first : NULL;
}

bool load_uses(const struct source *user, const struct source *used)
{
    for (size_t i = 0; i < user->uses_count; i++)
        if (user->uses[i] == used)
            return true;
    return false;
}
