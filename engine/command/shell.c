#include "command/shell.h"

#include <string.h>

void shell_word(struct bytes *out, const char *word)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                                "_-+./,:@%";
    if (*word && strspn(word, plain) == strlen(word)) {
        bytes_text(out, word);
        return;
    }
    bytes_char(out, '\'');
    for (const char *at = word; *at; at++)
        if (*at == '\'')
            bytes_text(out, "'\\''");
        else
            bytes_char(out, *at);
    bytes_char(out, '\'');
}
