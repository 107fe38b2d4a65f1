/* The two forms of an account. Private to this room. */
#ifndef GROAT_REPORT_ACCOUNT_FORM_H
#define GROAT_REPORT_ACCOUNT_FORM_H

#include "report/account.h"
#include "listing/bytes.h"

void account_text(struct bytes *bytes, const struct account_plan *plan,
                  const struct account *account);
void account_json(struct bytes *bytes, const struct account_plan *plan,
                  const struct account *account);

#endif
