/* The interface of the generated parser: Lemon's functions under descriptive names. */
#ifndef GROAT_PARSER_H
#define GROAT_PARSER_H

#include "build.h"

size_t parser_size(void);
void parser_begin(void *room, struct build *build);
void parser_feed(void *room, int kind, struct span token);
void parser_end(void *room);

#endif
