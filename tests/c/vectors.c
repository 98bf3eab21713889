/* Arguments in threes: the status that is expected, a document, and the text that must come of it, byte for byte. */
#include "check.h"

#include <lamella.h>

#include <string.h>

static unsigned char *read_file(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    unsigned char *bytes;
    long size;
    CHECK(file != NULL);
    CHECK(fseek(file, 0, SEEK_END) == 0);
    size = ftell(file);
    CHECK(size >= 0);
    rewind(file);
    /* Just as long as the file, so that a reader that goes past it is caught. */
    bytes = malloc(size > 0 ? (size_t)size : 1);
    CHECK(bytes != NULL);
    *len = fread(bytes, 1, (size_t)size, file);
    CHECK(*len == (size_t)size);
    fclose(file);
    return bytes;
}

int main(int argc, char **argv)
{
    int at;
    CHECK(argc % 3 == 1);
    for (at = 1; at < argc; at += 3) {
        lamella_text *plan = NULL;
        lamella_text *problems = NULL;
        lamella_text *text;
        unsigned char *document;
        unsigned char *expected;
        size_t document_len;
        size_t expected_len;
        lamella_status status;

        document = read_file(argv[at + 1], &document_len);
        expected = read_file(argv[at + 2], &expected_len);
        status = lamella_plan_json(document, document_len, &plan, &problems);
        if ((unsigned long)status != strtoul(argv[at], NULL, 10)) {
            fprintf(stderr, "%s: %s\n", argv[at + 1], lamella_status_text(status));
            return 1;
        }
        CHECK((plan != NULL) == (status == LAMELLA_OK));
        CHECK((problems != NULL) == (status == LAMELLA_PROBLEMS));
        text = plan != NULL ? plan : problems;
        if (lamella_text_len(text) != expected_len || memcmp(lamella_text_data(text), expected, expected_len) != 0) {
            fprintf(stderr, "%s: another text than %s\n", argv[at + 1], argv[at + 2]);
            return 1;
        }
        CHECK(lamella_text_data(text)[expected_len] == 0);
        CHECK(strlen((const char *)lamella_text_data(text)) == expected_len);
        lamella_text_free(text);
        free(document);
        free(expected);
    }
    return 0;
}
