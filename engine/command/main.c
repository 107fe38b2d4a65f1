/* The command. It reads its words, and hands them to a verb. */
#define _POSIX_C_SOURCE 200809L
#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include "command/help.h"
#include "command/options.h"
#include "command/output.h"
#include "command/say.h"

/* A standard stream that is closed would lend its number to the next file that is opened. In its
 * place stands one that refuses. */
static void hold_standard_streams(void)
{
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; stream++)
        if (fcntl(stream, F_GETFD) < 0)
            (void)!open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

static enum status run(const struct request *request)
{
    if (request->version)
        return help_print_version();
    if (request->help)
        return help_print(request->verb);
    if (request->quiet)
        say_only_errors();
    return request->verb->run(request);
}

int main(int argc, char **argv)
{
    hold_standard_streams();
    signal(SIGPIPE, SIG_IGN); /* a write that fails says so; output.c ends the run cleanly */
    struct request request;
    enum status status = STATUS_WRONG;
    if (options_read(&request, argc, argv))
        status = run(&request);
    options_free(&request);
    return (int)status;
}
