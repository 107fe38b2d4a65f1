#define _POSIX_C_SOURCE 200809L
#include "command/picture.h"

#include <stdio.h>
#include <stdlib.h>

#include "command/output.h"
#include "command/say.h"

bool picture_make(struct picture *picture, picture_writer *write, void *context)
{
    FILE *out = open_memstream(&picture->bytes, &picture->length);
    bool made = out && write(context, out);
    if (out && fclose(out) != 0)
        made = false;
    if (!made)
        say_no_memory();
    return made;
}

enum status picture_finish(struct picture *picture, const char *name, enum status status)
{
    if (picture->bytes && status != STATUS_WRONG)
        status = output_text(name, (groat_text){picture->bytes, picture->length}, status);
    free(picture->bytes);
    *picture = (struct picture){0};
    return status;
}
