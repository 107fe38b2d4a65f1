/* Mistakes that do not fit the grammar, and what may be meant by them. Private to the files that
 * make the messages. */
#ifndef GROAT_BUILD_SLIP_H
#define GROAT_BUILD_SLIP_H

#include "build.h"

/* Whether a token of this kind would fit in place of the wrong one. */
bool build_expects(const struct build *build, int kind);
bool build_is_word(struct span token);
bool build_is_text(struct span token, const char *text);
/* From the wrong token to the end of its line, without a comment. */
struct span build_rest_of_line(const struct build *build);
/* The rest of the line after the wrong token, up to a closing brace that was opened before it. */
struct span build_behind(const struct build *build);
/* Reports why the wrong token does not fit. */
void build_report(struct build *build, const char *help, const char *reason);

/* If the wrong token is a usual mistake, reports it and returns true. `ended` says that a complete
 * value comes before it. */
bool build_report_slip(struct build *build, bool ended);

#endif
