/* What the C tests share: a check that says where it failed, and a file as bytes. */
#ifndef LAMELLA_TESTS_CHECK_H
#define LAMELLA_TESTS_CHECK_H

#include <lamella.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CHECK(condition)                                                                  \
    do {                                                                                  \
        if (!(condition)) {                                                               \
            fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, #condition);       \
            exit(1);                                                                      \
        }                                                                                 \
    } while (0)

static inline char *read_file(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    char *bytes;
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

/* A text is just what a file holds; the text is freed. */
static inline int is_file(lamella_text *text, const char *path)
{
    size_t len;
    char *wanted = read_file(path, &len);
    int same = lamella_text_len(text) == len && memcmp(lamella_text_data(text), wanted, len) == 0
        && lamella_text_data(text)[len] == 0 && strlen(lamella_text_data(text)) == len;
    free(wanted);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    if (!same) {
        fprintf(stderr, "another text than %s\n", path);
    }
    return same;
}

#endif
