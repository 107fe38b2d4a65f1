#include "report/account.h"

#include "listing/json.h"
#include "report/account_form.h"

bool account_begin(struct account_plan *plan, FILE *out)
{
    struct bytes head = {0};
    if (!plan->json)
        return true;
    json_header(&head, plan->currency, plan->as_of);
    bytes_text(&head, "{},\n\"rows\": ["); /* each line says its own */
    bool written = bytes_flush(&head, out);
    bytes_free(&head);
    return written;
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
    return !plan->json || fputs(plan->written > 0 ? "\n]}\n" : "]}\n", out) != EOF;
}
