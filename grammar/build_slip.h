/* What does not fit the grammar, and what may be meant by it: private to the builders of messages. */
#ifndef GROAT_BUILD_SLIP_H
#define GROAT_BUILD_SLIP_H

#include "build.h"

/* Whether such a token could stand in the place of the wrong one. */
bool build_expects(const struct build *build, int kind);
bool build_is_word(struct span token);
bool build_is_text(struct span token, const char *text);
/* From the wrong token to the end of its line, without a comment. */
struct span build_rest_of_line(const struct build *build);
/* The rest of the line behind the wrong token, up to a brace that it does not open itself. */
struct span build_behind(const struct build *build);
/* Says of the wrong token why it does not fit. */
void build_report(struct build *build, const char *help, const char *reason);

/* True when the wrong token is one of the slips that habits of other places bring, and was said to
 * be. `ended`: a value that is complete stands before it. */
bool build_report_slip(struct build *build, bool ended);

#endif
