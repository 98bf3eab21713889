/* What a careless caller may do: NULL, nothing, too much, bytes that are no text. No argument but a document that plans. */
#include "check.h"

#include <lamella.h>

#include <pthread.h>
#include <string.h>

static unsigned char document[1 << 20];
static size_t document_len;

/* The document has a problem of this code, and only the problems are set. */
static void is_refused(const unsigned char *text, size_t len, const char *code)
{
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    CHECK(lamella_plan_json(text, len, &plan, &problems) == LAMELLA_PROBLEMS);
    CHECK(plan == NULL);
    CHECK(problems != NULL);
    CHECK(strstr((const char *)lamella_text_data(problems), "\"lamella\": \"problems/1\"") != NULL);
    CHECK(strstr((const char *)lamella_text_data(problems), code) != NULL);
    lamella_text_free(problems);
    /* The same with nobody to listen. */
    CHECK(lamella_plan_json(text, len, &plan, NULL) == LAMELLA_PROBLEMS);
    CHECK(plan == NULL);
}

static void *plan_often(void *first)
{
    int turn;
    for (turn = 0; turn < 3; turn++) {
        lamella_text *plan = NULL;
        CHECK(lamella_plan_json(document, document_len, &plan, NULL) == LAMELLA_OK);
        CHECK(lamella_text_len(plan) == lamella_text_len(first));
        CHECK(memcmp(lamella_text_data(plan), lamella_text_data(first), lamella_text_len(first)) == 0);
        lamella_text_free(plan);
    }
    return NULL;
}

int main(int argc, char **argv)
{
    static unsigned char large[2 << 20];
    const unsigned char not_utf8[] = {'{', '"', 0xff, 0xfe, '"', '}'};
    const unsigned char surrogate[] = {'"', 0xed, 0xa0, 0x80, '"'};
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    pthread_t threads[4];
    FILE *file;
    size_t index;

    CHECK(argc == 2);
    file = fopen(argv[1], "rb");
    CHECK(file != NULL);
    document_len = fread(document, 1, sizeof document, file);
    fclose(file);

    CHECK(lamella_abi_version() == LAMELLA_ABI_VERSION);
    CHECK(strcmp(lamella_version(), LAMELLA_VERSION) == 0);
    CHECK(strcmp(lamella_status_text(LAMELLA_OK), "ok") == 0);
    CHECK(strcmp(lamella_status_text(4711), "unknown status") == 0);
    CHECK(strcmp(lamella_status_text(LAMELLA_INTERNAL), "unknown status") != 0);

    /* NULL. */
    CHECK(lamella_plan_json(document, document_len, NULL, &problems) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(document, document_len, NULL, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(NULL, 5, &plan, &problems) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(document, SIZE_MAX, &plan, &problems) == LAMELLA_LENGTH);
    CHECK(plan == NULL);
    CHECK(problems == NULL);
    CHECK(lamella_text_data(NULL) == NULL);
    CHECK(lamella_text_len(NULL) == 0);
    lamella_text_free(NULL);

    /* Nothing, and what is no document. */
    is_refused(NULL, 0, "document.json");
    is_refused(document, 0, "document.json");
    is_refused(document, document_len / 2, "document.json");
    is_refused(not_utf8, sizeof not_utf8, "document.encoding");
    is_refused(surrogate, sizeof surrogate, "document.encoding");
    is_refused((const unsigned char *)"\0", 1, "document.json");
    is_refused((const unsigned char *)"{}", 2, "field.missing");

    /* 2 MiB: spaces, brackets, zeros. */
    memset(large, ' ', sizeof large);
    is_refused(large, sizeof large, "document.size");
    is_refused(large, sizeof large / 2, "document.json");
    memset(large, '[', sizeof large);
    is_refused(large, sizeof large / 2, "document.json");
    memset(large, 0, sizeof large);
    is_refused(large, sizeof large, "document.size");

    /* Outputs stand as they were where nothing is written. */
    plan = (lamella_text *)large;
    problems = (lamella_text *)large;
    CHECK(lamella_plan_json(NULL, 1, &plan, &problems) == LAMELLA_NULL_ARGUMENT);
    CHECK(plan == (lamella_text *)large && problems == (lamella_text *)large);
    CHECK(lamella_plan_json((const unsigned char *)"{}", 2, &plan, NULL) == LAMELLA_PROBLEMS);
    CHECK(plan == (lamella_text *)large);
    CHECK(lamella_plan_json(document, document_len, &plan, &problems) == LAMELLA_OK);
    CHECK(plan != (lamella_text *)large && problems == (lamella_text *)large);

    /* From several threads at once. */
    for (index = 0; index < sizeof threads / sizeof *threads; index++) {
        CHECK(pthread_create(&threads[index], NULL, plan_often, plan) == 0);
    }
    for (index = 0; index < sizeof threads / sizeof *threads; index++) {
        CHECK(pthread_join(threads[index], NULL) == 0);
    }
    lamella_text_free(plan);
    return 0;
}
