/* embed.c - a plan checked by a program of one's own. Built like this where bellsheet is installed:
 *
 *     cc embed.c $(pkg-config --cflags --libs bellsheet) -o embed
 *
 * usage: embed SHARE PLAN [FILE TEXT] - the findings of the folder PLAN, with TEXT laid over its file FILE, and how many
 * bytes of JSON tell what was understood. SHARE is where the shelf is installed. */
#include <bellsheet/bellsheet.h>
#include <stdio.h>
#include <string.h>

static int complain(const char *what, const struct bell_session *session)
{
    fprintf(stderr, "embed: %s %s\n", what, bell_failure(session));
    return 2;
}

static void show(const struct bell_finding *finding)
{
    static const char *const severities[] = {"info", "warning", "error"};
    const struct bell_place *place = &finding->place;
    /* What is for the coach alone stays out of a log. */
    const char *message = finding->for_coach ? "something here is for the coach to look at" : finding->message;
    printf("%s:%u:%u: %s: %s [%s]\n", place->file, place->line, place->column, severities[finding->severity],
           message, finding->id);
    if (finding->replacement && !finding->for_coach)
        printf("    write `%s` in place of bytes %zu to %zu\n", finding->replacement, finding->edit.start,
               finding->edit.end);
}

int main(int argc, char **argv)
{
    struct bell_session *session;
    const char *json;
    size_t length;
    if (argc != 3 && argc != 5)
        return complain("usage: embed SHARE PLAN [FILE TEXT]", NULL);
    const struct bell_options options = {.share = argv[1], .today = "2027-03-08"};
    if (bell_open(&options, &session) != BELL_OK)
        return complain("no memory", NULL);
    int status = 0;
    if (bell_add_path(session, argv[2]) != BELL_OK ||
        (argc == 5 && bell_overlay(session, argv[3], argv[4], strlen(argv[4]), 1) != BELL_OK))
        status = complain("this plan cannot be opened", NULL);
    else if (bell_compile(session) != BELL_OK)
        status = complain("cannot compile:", session);
    for (size_t i = 0; i < bell_finding_count(session); i++)
        show(bell_finding(session, i));
    if (status == 0 && bell_programme(session, 0, &json, &length) == BELL_OK)
        printf("%zu findings, %zu bytes of JSON\n", bell_finding_count(session), length);
    bell_close(session);
    return status;
}
