#include "command/shell.h"

#include <string.h>

void shell_path(struct bytes *out, const char *path)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "_-+./,:@%";
    if (*path == '-')
        bytes_text(out, "./");
    if (*path && strspn(path, plain) == strlen(path)) {
        bytes_text(out, path);
        return;
    }
    bytes_char(out, '\'');
    for (const char *at = path; *at; at++)
        if (*at == '\'')
            bytes_text(out, "'\\''");
        else
            bytes_char(out, *at);
    bytes_char(out, '\'');
}
