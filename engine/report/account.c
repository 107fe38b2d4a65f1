#include "report/account.h"

#include "report/account_form.h"

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
    bool written = bytes_flush(&bytes, out);
    bytes_free(&bytes);
    return written;
}

bool account_end(struct account_plan *plan, FILE *out)
{
    return !plan->json || fputs(plan->written > 0 ? "\n]\n" : "]\n", out) != EOF;
}
