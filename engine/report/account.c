#include "report/account.h"

#include <errno.h>

#include "report/account_form.h"

/* Writes what was put together, and frees it. */
static bool flush(struct bytes *bytes, FILE *out)
{
    bool whole = !bytes->failed;
    if (!whole)
        errno = ENOMEM;
    else if (bytes->length > 0)
        whole = fwrite(bytes->start, 1, bytes->length, out) == bytes->length;
    bytes_free(bytes);
    return whole;
}

bool account_begin(struct account_plan *plan, FILE *out)
{
    return !plan->json || fputc('[', out) != EOF;
}

bool account_add(struct account_plan *plan, const struct account *account, FILE *out)
{
    struct bytes bytes = {0};
    if (plan->json) {
        bytes_text(&bytes, plan->written > 0 ? ",\n" : "\n");
        account_json(&bytes, plan, account);
    } else {
        bytes_text(&bytes, plan->written > 0 ? "\n" : "");
        account_text(&bytes, plan, account);
    }
    plan->written++;
    return flush(&bytes, out);
}

bool account_end(struct account_plan *plan, FILE *out)
{
    return !plan->json || fputs(plan->written > 0 ? "\n]\n" : "]\n", out) != EOF;
}
