/* Answers JSON Lines from standard input on standard output: a kind of answer and a number of threads. */
#include "check.h"

static ptrdiff_t from_input(void *context, char *buffer, size_t capacity)
{
    (void)context;
    /* In portions that divide lines at odd places. */
    return (ptrdiff_t)fread(buffer, 1, capacity < 1009 ? capacity : 1009, stdin);
}

static int to_output(void *context, const char *line, size_t len)
{
    size_t *lines = context;
    CHECK(len > 0 && line[len - 1] == '\n' && memchr(line, '\n', len) == line + len - 1);
    ++*lines;
    return fwrite(line, 1, len, stdout) != len;
}

int main(int argc, char **argv)
{
    size_t lines = 0;
    uint32_t answer;
    CHECK(argc == 3);
    answer = strcmp(argv[1], "check") == 0 ? LAMELLA_ANSWER_CHECK : LAMELLA_ANSWER_PLAN;
    CHECK(lamella_lines_stream(from_input, to_output, &lines, NULL, answer, strtoul(argv[2], NULL, 10)) == LAMELLA_OK);
    CHECK(lines > 0);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
