#include "command/places.h"

#include <string.h>

#include "command/file.h"
#include "command/say.h"
#include "text/near.h"

/* The word that asks for help; it may be followed by a verb. */
#define HELP "help"

const struct verb *places_verb(const char *name)
{
    for (size_t i = 0; i < verbs_count; i++)
        if (strcmp(verbs[i].name, name) == 0)
            return &verbs[i];
    return NULL;
}

static bool find_verb(struct request *request, const char *name)
{
    struct near near = near_to(name, strlen(name));
    request->verb = places_verb(name);
    if (request->verb)
        return true;
    near_offer(&near, HELP);
    for (size_t i = 0; i < verbs_count; i++)
        near_offer(&near, verbs[i].name);
    say("groat: there is no verb %s", name);
    say_try(near.best ? near.best : "groat --help");
    return false;
}

static bool has_enough(const struct request *request)
{
    const struct verb *verb = request->verb;
    bool starts = verb->takes == TAKES_METHOD_AND_FOLDER;
    bool products = verb->takes == TAKES_RULES_AND_PRODUCTS;
    size_t wanted = products || starts ? 3 : 2;
    if (request->places_count == wanted || (starts && request->places_count < wanted) ||
        (verb->takes == TAKES_SEVERAL && request->places_count > wanted))
        return true;
    const char *missing = request->places_count == 1 ? "a rules file" : "a product sheet";
    if (request->places_count < wanted)
        say("groat: %s needs %s", verb->name, missing);
    else
        say("groat: %s cannot use the argument %s", verb->name, request->places[wanted]);
    if (!starts)
        say("Try: groat %s RULES%s", verb->name, products ? " PRODUCTS" : "");
    return false;
}

/* A sheet read as rules would be refused word by word, and tidied it would be a loss. */
static bool rules_are_no_sheets(const struct request *request)
{
    const struct verb *verb = request->verb;
    bool products = verb->takes == TAKES_RULES_AND_PRODUCTS;
    enum sheet_form form;
    for (size_t i = 0; i < request->rules_count; i++) {
        const char *name = request->all_rules[i];
        if (!sheet_form_of_name(name, &form))
            continue;
        say("groat: %s looks like a sheet%s", name,
            products ? ": the rules come first" : ", not like rules");
        if (products && !sheet_form_of_name(request->products, &form))
            say("Try: groat %s %s %s", verb->name, request->products, name);
        return false;
    }
    return true;
}

/* Standard input can be read only once. */
static bool standard_input_is_one(const struct request *request)
{
    const char *others[] = {request->products, request->against};
    size_t count = 0;
    for (size_t i = 0; i < request->rules_count; i++)
        count += file_is_standard(request->all_rules[i]);
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        count += others[i] && file_is_standard(others[i]);
    if (count > 1)
        say("groat: only one file can be -, which is standard input");
    return count <= 1;
}

/* `groat help`, or `groat help VERB`. */
static bool settle_help(struct request *request)
{
    request->help = true;
    if (request->places_count > 2) {
        say("groat: help cannot use the argument %s", request->places[2]);
        say_try("groat help VERB");
        return false;
    }
    return request->places_count < 2 || find_verb(request, request->places[1]);
}

bool places_settle(struct request *request)
{
    if (request->places_count > 0 && strcmp(request->places[0], HELP) == 0)
        return settle_help(request);
    if (request->places_count > 0 && !find_verb(request, request->places[0]))
        return false;
    if (request->help || request->version)
        return true;
    if (!request->verb) {
        say("groat: a verb is missing");
        say_try("groat --help");
        return false;
    }
    if (!has_enough(request))
        return false;
    enum words_taken takes = request->verb->takes;
    if (takes == TAKES_METHOD_AND_FOLDER) {
        request->method = request->places_count > 1 ? request->places[1] : NULL;
        request->folder = request->places_count > 2 ? request->places[2] : NULL;
        return true;
    }
    request->rules = request->places[1];
    request->all_rules = request->places + 1;
    request->rules_count = takes == TAKES_SEVERAL ? request->places_count - 1 : 1;
    request->products = takes == TAKES_RULES_AND_PRODUCTS ? request->places[2] : NULL;
    return rules_are_no_sheets(request) && standard_input_is_one(request);
}
