/* A batch under way: a recipe, and its batch/1 document with events (compared at the end, byte for byte). */
#include "check.h"

#include <pthread.h>

#define RECORD(batch, event, out, report) lamella_batch_record(batch, event, strlen(event), out, report)

static lamella_text *document_of(const lamella_plan *plan)
{
    lamella_text *text = NULL;
    CHECK(lamella_plan_document(plan, &text) == LAMELLA_OK);
    return text;
}

static lamella_text *plan_of(const lamella_batch *batch)
{
    lamella_plan *plan = NULL;
    lamella_text *text;
    CHECK(lamella_batch_plan(batch, &plan) == LAMELLA_OK);
    text = document_of(plan);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    return text;
}

/* Whether two texts are the same; both are freed. */
static int same(lamella_text *one, lamella_text *other)
{
    size_t len = lamella_text_len(one);
    int same = len == lamella_text_len(other) && memcmp(lamella_text_data(one), lamella_text_data(other), len) == 0;
    CHECK(lamella_text_free(one) == LAMELLA_OK && lamella_text_free(other) == LAMELLA_OK);
    return same;
}

/* The first problem of a report is of this code; the report is freed. */
static int is(lamella_report *report, const char *code)
{
    lamella_problem problem;
    int is;
    CHECK(lamella_report_problem(report, 0, &problem, sizeof problem) == LAMELLA_OK);
    is = problem.code.len == strlen(code) && memcmp(problem.code.data, code, problem.code.len) == 0;
    if (!is) {
        fprintf(stderr, "%.*s, not %s\n", (int)problem.code.len, problem.code.data, code);
    }
    CHECK(lamella_report_free(report) == LAMELLA_OK);
    return is;
}

static void *add_water(void *batch)
{
    int turn;
    for (turn = 0; turn < 3; turn++) {
        CHECK(RECORD(batch, "{\"note\": \"another thread\"}", NULL, NULL) == LAMELLA_OK);
    }
    return NULL;
}

static void edges(lamella_batch *batch, const lamella_plan *plan)
{
    lamella_text *text = NULL;
    lamella_report *report = NULL;
    lamella_batch *other = NULL;
    lamella_plan *rest = NULL;
    int poured = 7;
    CHECK(RECORD(NULL, "{}", &text, &report) == LAMELLA_NULL_ARGUMENT);
    CHECK(RECORD((lamella_batch *)(void *)plan, "{}", &text, &report) == LAMELLA_HANDLE);
    CHECK(lamella_batch_record(batch, NULL, 3, &text, &report) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_batch_record(batch, "{}", SIZE_MAX, &text, &report) == LAMELLA_LENGTH);
    CHECK(lamella_batch_plan(batch, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_batch_plan(NULL, &rest) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_batch_of(NULL, &other, &report) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_batch_is_poured(batch, "no such layer", 13, &poured) == LAMELLA_OK && poured == 0);
    CHECK(lamella_batch_undo(NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_batch_event_count(NULL) == 0);
    CHECK(text == NULL && report == NULL && other == NULL && rest == NULL);
    CHECK(RECORD(batch, "", &text, &report) == LAMELLA_PROBLEMS && is(report, "document.json"));
    CHECK(RECORD(batch, "\xff", &text, &report) == LAMELLA_PROBLEMS && is(report, "document.encoding"));
    CHECK(RECORD(batch, "{\"poured\": \"x\"}", &text, &report) == LAMELLA_PROBLEMS && is(report, "field.missing"));
    CHECK(RECORD(batch, "{\"weighed\": \"x\", \"mass\": \"1 g\"}", &text, &report) == LAMELLA_PROBLEMS);
    CHECK(is(report, "event.unknown"));
    CHECK(lamella_batch_read("{}", 2, &other, &report) == LAMELLA_PROBLEMS && is(report, "document.format"));
    CHECK(text == NULL && other == NULL && lamella_batch_event_count(batch) == 0);
    CHECK(lamella_batch_undo(batch) == LAMELLA_INDEX);
}

int main(int argc, char **argv)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    lamella_batch *batch = NULL, *again = NULL;
    lamella_text *text = NULL, *before;
    lamella_interval whole, jug;
    pthread_t threads[4];
    char *document;
    size_t len, index;
    CHECK(argc == 3);
    document = read_file(argv[1], &len);
    CHECK(lamella_recipe_read(document, len, NULL, &recipe, NULL) == LAMELLA_OK);
    free(document);
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    CHECK(lamella_batch_of(plan, &batch, NULL) == LAMELLA_OK);
    edges(batch, plan);
    CHECK(same(plan_of(batch), document_of(plan)));

    /* How sure a superfat is. */
    CHECK(lamella_plan_interval(plan, LAMELLA_NONE, &whole, sizeof whole) == LAMELLA_OK);
    CHECK(whole.low <= whole.covered_low && whole.covered_low <= whole.expected);
    CHECK(whole.expected <= whole.covered_high && whole.covered_high <= whole.high);
    CHECK(whole.verdict >= LAMELLA_VERDICT_FAT_LEFT && whole.verdict <= LAMELLA_VERDICT_LYE_HEAVY);
    for (index = 0; index < lamella_plan_jug_count(plan); index++) {
        lamella_jug figures;
        CHECK(lamella_plan_interval(plan, index, &jug, sizeof jug) == LAMELLA_OK);
        CHECK(lamella_plan_jug(plan, index, &figures, sizeof figures) == LAMELLA_OK);
        CHECK(jug.superfat == figures.superfat && jug.low <= jug.superfat && jug.superfat <= jug.high);
    }
    CHECK(lamella_plan_interval(plan, index, &jug, sizeof jug) == LAMELLA_INDEX);
    CHECK(lamella_plan_certainty(plan, &text) == LAMELLA_OK);
    CHECK(strstr(lamella_text_data(text), "\"lamella\": \"certainty/1\"") != NULL);
    CHECK(lamella_text_free(text) == LAMELLA_OK);

    /* An event changes the rest; taking it back brings the plan back. */
    CHECK(RECORD(batch, "{\"weighed\": \"olive-oil\", \"mass\": \"412.6 g\"}", &text, NULL) == LAMELLA_OK);
    CHECK(strstr(lamella_text_data(text), "\"lamella\": \"changes/1\"") != NULL);
    CHECK(strstr(lamella_text_data(text), "\"now\": \"412.6 g\"") != NULL);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    CHECK(lamella_batch_event_count(batch) == 1);
    CHECK(!same(plan_of(batch), document_of(plan)));
    CHECK(lamella_batch_corrections(batch, &text, NULL) == LAMELLA_OK);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    CHECK(lamella_batch_undo(batch) == LAMELLA_OK);
    CHECK(same(plan_of(batch), document_of(plan)));

    /* Several threads take turns. */
    for (index = 0; index < 4; index++) {
        CHECK(pthread_create(&threads[index], NULL, add_water, batch) == 0);
    }
    for (index = 0; index < 4; index++) {
        CHECK(pthread_join(threads[index], NULL) == 0);
    }
    CHECK(lamella_batch_event_count(batch) == 12);
    CHECK(lamella_batch_free(batch) == LAMELLA_OK);
    CHECK(lamella_batch_free(batch) == LAMELLA_HANDLE);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);

    /* A log is taken up again, and is the same log. */
    document = read_file(argv[2], &len);
    CHECK(lamella_batch_read(document, len, &batch, NULL) == LAMELLA_OK);
    free(document);
    CHECK(lamella_batch_document(batch, &text) == LAMELLA_OK);
    CHECK(lamella_batch_read(lamella_text_data(text), lamella_text_len(text), &again, NULL) == LAMELLA_OK);
    CHECK(is_file(text, argv[2]));
    before = plan_of(batch);
    CHECK(same(before, plan_of(again)));
    CHECK(lamella_batch_event_count(batch) == lamella_batch_event_count(again));
    CHECK(lamella_batch_free(batch) == LAMELLA_OK && lamella_batch_free(again) == LAMELLA_OK);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
