/* What a careless caller may do: NULL, nothing, too much, bytes that are no text, handles that are gone or of another kind,
 * sizes that are none. No argument but a document that plans. */
#include "check.h"

#include <pthread.h>

static char *document;
static size_t document_len;

/* The document has a problem of this code, and only the problems are set. */
static void is_refused(const char *text, size_t len, const char *code)
{
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    lamella_recipe *recipe = NULL;
    lamella_report *report = NULL;
    lamella_problem problem;
    CHECK(lamella_plan_json(text, len, &plan, &problems) == LAMELLA_PROBLEMS);
    CHECK(plan == NULL && problems != NULL);
    CHECK(strstr(lamella_text_data(problems), "\"lamella\": \"problems/1\"") != NULL);
    CHECK(strstr(lamella_text_data(problems), code) != NULL);
    CHECK(lamella_text_free(problems) == LAMELLA_OK);
    CHECK(lamella_recipe_read(text, len, NULL, &recipe, &report) == LAMELLA_PROBLEMS);
    CHECK(recipe == NULL && report != NULL);
    CHECK(lamella_report_problem(report, 0, &problem, sizeof problem) == LAMELLA_OK);
    CHECK(problem.code.len == strlen(code) && memcmp(problem.code.data, code, problem.code.len) == 0);
    CHECK(lamella_report_problem(report, lamella_report_count(report), &problem, sizeof problem) == LAMELLA_INDEX);
    CHECK(lamella_report_problem(report, LAMELLA_NONE, &problem, sizeof problem) == LAMELLA_INDEX);
    CHECK(lamella_report_text(report, text, len, "x.json", 6, &plan) == LAMELLA_OK);
    CHECK(strstr(lamella_text_data(plan), "x.json:") != NULL);
    CHECK(lamella_text_free(plan) == LAMELLA_OK);
    CHECK(lamella_report_free(report) == LAMELLA_OK);
    /* The same with nobody to listen. */
    plan = NULL;
    CHECK(lamella_plan_json(text, len, &plan, NULL) == LAMELLA_PROBLEMS);
    CHECK(lamella_recipe_read(text, len, NULL, &recipe, NULL) == LAMELLA_PROBLEMS);
    CHECK(plan == NULL && recipe == NULL);
}

/* A comma that may set off thousands is asked about with both readings. */
static void thousands(void)
{
    const char text[] =
        "{\"lamella\": \"recipe/1\", \"name\": \"A\", \"fats\": [{\"fat\": \"olive-oil\", \"share\": \"100 %\"}],"
        "\"alkali\": {\"naoh\": {\"purity\": \"99 %\"}}, \"superfat\": \"5 %\", \"water\": {\"lye_concentration\": \"33 %\"},"
        "\"size\": {\"fat\": \"1,500 g\"}, \"layers\": [{\"layer\": \"All\", \"share\": \"1 part\"}]}";
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    is_refused(text, sizeof text - 1, "quantity.comma");
    CHECK(lamella_plan_json(text, sizeof text - 1, &plan, &problems) == LAMELLA_PROBLEMS);
    CHECK(strstr(lamella_text_data(problems), "write \\\"1500 g\\\" or \\\"1.500 g\\\"") != NULL);
    CHECK(lamella_text_free(problems) == LAMELLA_OK);
}

static void documents(void)
{
    static char large[2 << 20];
    const char not_utf8[] = {'{', '"', (char)0xff, (char)0xfe, '"', '}'};
    const char surrogate[] = {'"', (char)0xed, (char)0xa0, (char)0x80, '"'};
    is_refused(NULL, 0, "document.json");
    is_refused(document, 0, "document.json");
    is_refused(document, document_len / 2, "document.json");
    is_refused(not_utf8, sizeof not_utf8, "document.encoding");
    is_refused(surrogate, sizeof surrogate, "document.encoding");
    is_refused("\0", 1, "document.json");
    is_refused("{}", 2, "document.format");
    thousands();
    /* 2 MiB: spaces, brackets, zeros. */
    memset(large, ' ', sizeof large);
    is_refused(large, sizeof large, "document.size");
    is_refused(large, sizeof large / 2, "document.json");
    memset(large, '[', sizeof large);
    is_refused(large, sizeof large / 2, "document.json");
    memset(large, 0, sizeof large);
    is_refused(large, sizeof large, "document.size");
}

static lamella_recipe *a_recipe(void)
{
    lamella_recipe *recipe = NULL;
    CHECK(lamella_recipe_read(document, document_len, NULL, &recipe, NULL) == LAMELLA_OK);
    return recipe;
}

static lamella_plan *a_plan(void)
{
    lamella_recipe *recipe = a_recipe();
    lamella_plan *plan = NULL;
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    return plan;
}

/* Every call of a plan says so when the plan is none. */
static void is_no_plan(const lamella_plan *plan, lamella_status wanted)
{
    union {
        lamella_layer layer;
        lamella_portion portion;
        lamella_height height;
        lamella_jug jug;
        lamella_weigh weigh;
        lamella_scale scale;
        lamella_caution caution;
        lamella_step step;
        lamella_totals totals;
        size_t index;
    } out;
    lamella_text *text = (lamella_text *)&out;
    CHECK(lamella_plan_layer_count(plan) == 0 && lamella_plan_jug_count(plan) == 0);
    CHECK(lamella_plan_weigh_count(plan) == 0 && lamella_plan_scale_count(plan) == 0);
    CHECK(lamella_plan_caution_count(plan) == 0 && lamella_plan_step_count(plan) == 0);
    CHECK(lamella_plan_mould_count(plan) == 0);
    CHECK(lamella_plan_layer(plan, 0, &out.layer, sizeof out.layer) == wanted);
    CHECK(lamella_plan_portion(plan, 0, &out.portion, sizeof out.portion) == wanted);
    CHECK(lamella_plan_height(plan, 0, 0, &out.height, sizeof out.height) == wanted);
    CHECK(lamella_plan_jug(plan, 0, &out.jug, sizeof out.jug) == wanted);
    CHECK(lamella_plan_jug_layer(plan, 0, 0, &out.index) == wanted);
    CHECK(lamella_plan_weigh(plan, 0, &out.weigh, sizeof out.weigh) == wanted);
    CHECK(lamella_plan_scale(plan, 0, &out.scale, sizeof out.scale) == wanted);
    CHECK(lamella_plan_caution(plan, 0, &out.caution, sizeof out.caution) == wanted);
    CHECK(lamella_plan_step(plan, 0, &out.step, sizeof out.step) == wanted);
    CHECK(lamella_plan_totals(plan, &out.totals, sizeof out.totals) == wanted);
    CHECK(lamella_plan_document(plan, &text) == wanted);
    CHECK(lamella_plan_text(plan, &text) == wanted);
    CHECK(lamella_plan_markdown(plan, &text) == wanted);
    CHECK(lamella_plan_svg(plan, 0, &text) == wanted);
    CHECK(text == (lamella_text *)&out);
}

static void handles(void)
{
    lamella_recipe *recipe = a_recipe();
    lamella_plan *plan = a_plan();
    lamella_plan *other = NULL;
    lamella_text *text = NULL;
    lamella_problem problem;
    int local;

    /* NULL may be freed, and is nothing else. */
    CHECK(lamella_recipe_free(NULL) == LAMELLA_OK && lamella_plan_free(NULL) == LAMELLA_OK);
    CHECK(lamella_text_free(NULL) == LAMELLA_OK && lamella_report_free(NULL) == LAMELLA_OK);
    is_no_plan(NULL, LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_recipe_document(NULL, &text) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_report_document(NULL, &text) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_report_problem(NULL, 0, &problem, sizeof problem) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_report_count(NULL) == 0);
    CHECK(lamella_plan_of(NULL, &other, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_of(recipe, NULL, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_document(plan, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_text_data(NULL) == NULL && lamella_text_len(NULL) == 0);

    /* One thing for another, and what never was a handle. */
    is_no_plan((lamella_plan *)(void *)recipe, LAMELLA_HANDLE);
    is_no_plan((lamella_plan *)(void *)&local, LAMELLA_HANDLE);
    is_no_plan((lamella_plan *)LAMELLA_NONE, LAMELLA_HANDLE);
    CHECK(lamella_plan_free((lamella_plan *)(void *)recipe) == LAMELLA_HANDLE);
    CHECK(lamella_text_free((lamella_text *)(void *)plan) == LAMELLA_HANDLE);
    CHECK(lamella_text_data((lamella_text *)(void *)plan) == NULL);
    CHECK(lamella_plan_of((lamella_recipe *)(void *)plan, &other, NULL) == LAMELLA_HANDLE);

    /* Used after it was freed, and freed twice. */
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    is_no_plan(plan, LAMELLA_HANDLE);
    CHECK(lamella_plan_free(plan) == LAMELLA_HANDLE);
    CHECK(lamella_recipe_document(recipe, &text) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_HANDLE);
    CHECK(lamella_plan_of(recipe, &other, NULL) == LAMELLA_HANDLE);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    CHECK(lamella_text_free(text) == LAMELLA_HANDLE);
    CHECK(lamella_text_data(text) == NULL && lamella_text_len(text) == 0);
    CHECK(other == NULL);
}

/* Outputs stand as they were where nothing is written. */
static void outputs(void)
{
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    lamella_recipe *recipe = NULL;
    lamella_report *report = NULL;
    CHECK(lamella_plan_json(document, document_len, NULL, &problems) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(document, document_len, NULL, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(NULL, 5, &plan, &problems) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_json(document, SIZE_MAX, &plan, &problems) == LAMELLA_LENGTH);
    CHECK(lamella_recipe_read(document, document_len, NULL, NULL, &report) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_recipe_read(NULL, 5, NULL, &recipe, &report) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_recipe_read(document, SIZE_MAX, NULL, &recipe, &report) == LAMELLA_LENGTH);
    CHECK(plan == NULL && problems == NULL && recipe == NULL && report == NULL);
    CHECK(lamella_plan_json(document, document_len, &plan, &problems) == LAMELLA_OK);
    CHECK(plan != NULL && problems == NULL);
    CHECK(lamella_text_free(plan) == LAMELLA_OK);
}

static void sizes(void)
{
    lamella_plan *plan = a_plan();
    struct {
        lamella_totals known;
        int64_t later[2];
    } newer;
    lamella_totals totals, older;
    lamella_jug jug;
    CHECK(lamella_plan_totals(plan, &totals, sizeof totals) == LAMELLA_OK);
    memset(&newer, 0xff, sizeof newer);
    CHECK(lamella_plan_totals(plan, &newer.known, sizeof newer) == LAMELLA_OK);
    CHECK(memcmp(&newer.known, &totals, sizeof totals) == 0 && newer.later[0] == 0 && newer.later[1] == 0);
    memset(&older, 0xff, sizeof older);
    CHECK(lamella_plan_totals(plan, &older, 2 * sizeof(lamella_mass)) == LAMELLA_OK);
    CHECK(older.fat == totals.fat && older.fat_ideal == totals.fat_ideal && older.weighed_in == -1);
    CHECK(lamella_plan_totals(plan, NULL, sizeof totals) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_totals(plan, &totals, 0) == LAMELLA_LENGTH);
    CHECK(lamella_plan_totals(plan, &totals, SIZE_MAX) == LAMELLA_LENGTH);
    CHECK(lamella_plan_jug(plan, LAMELLA_NONE, &jug, sizeof jug) == LAMELLA_INDEX);
    CHECK(lamella_plan_jug_layer(plan, 0, 0, NULL) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
}

static void options(void)
{
    struct {
        lamella_options known;
        size_t later;
    } newer;
    lamella_options options;
    lamella_recipe *recipe = NULL;
    lamella_report *report = NULL;
    lamella_problem problem;
    CHECK(lamella_options_init(NULL, sizeof options) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_options_init(&options, 0) == LAMELLA_LENGTH);
    CHECK(lamella_options_init(&options, sizeof options) == LAMELLA_OK);
    CHECK(options.size == sizeof options && options.document_bytes == 1048576);
    CHECK(options.layers == 200 && options.materials == 10000);
#define READ(options) lamella_recipe_read(document, document_len, options, &recipe, &report)
    CHECK(READ(&options) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    options.document_bytes = document_len - 1;
    CHECK(READ(&options) == LAMELLA_PROBLEMS);
    CHECK(lamella_report_problem(report, 0, &problem, sizeof problem) == LAMELLA_OK);
    CHECK(memcmp(problem.code.data, "document.size", problem.code.len) == 0);
    CHECK(lamella_report_free(report) == LAMELLA_OK);
    CHECK(lamella_options_init(&options, sizeof options) == LAMELLA_OK);
    options.layers = 1;
    options.materials = 1;
    CHECK(READ(&options) == LAMELLA_PROBLEMS);
    CHECK(lamella_report_count(report) == 2);
    CHECK(lamella_report_free(report) == LAMELLA_OK);
    options.layers = 201;
    CHECK(READ(&options) == LAMELLA_OPTION);
    options.size = 2 * sizeof(size_t);
    CHECK(READ(&options) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    options.size = 0;
    CHECK(READ(&options) == LAMELLA_OPTION);
    options.size = SIZE_MAX;
    CHECK(READ(&options) == LAMELLA_OPTION);
    CHECK(lamella_options_init(&newer.known, sizeof newer) == LAMELLA_OK);
    CHECK(newer.known.size == sizeof newer && newer.later == 0);
    CHECK(READ(&newer.known) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    newer.later = 1; /* asks for what this library does not know */
    CHECK(READ(&newer.known) == LAMELLA_OPTION);
}

static void numbers(void)
{
    char buffer[32];
    CHECK(lamella_decimal(41100000000000, 1, buffer, sizeof buffer) == LAMELLA_OK && strcmp(buffer, "41.1") == 0);
    CHECK(lamella_decimal(-1, 12, buffer, sizeof buffer) == LAMELLA_OK && strcmp(buffer, "-0.000000000001") == 0);
    CHECK(lamella_decimal(125000000000, 1, buffer, 4) == LAMELLA_OK && strcmp(buffer, "0.1") == 0);
    CHECK(lamella_percent(50000000000, 1, buffer, sizeof buffer) == LAMELLA_OK && strcmp(buffer, "5.0") == 0);
    CHECK(lamella_decimal(125000000000, 1, buffer, 3) == LAMELLA_BUFFER);
    CHECK(lamella_decimal(1, 1, NULL, 3) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_decimal(1, 13, buffer, sizeof buffer) == LAMELLA_OPTION);
    CHECK(lamella_decimal(INT64_MIN, 12, buffer, sizeof buffer) == LAMELLA_OK);
    CHECK(lamella_approximate(2500000000000) == 2.5);
}

static ptrdiff_t too_much(void *context, char *buffer, size_t capacity)
{
    (void)context;
    (void)buffer;
    return (ptrdiff_t)(capacity + 1);
}

static ptrdiff_t newlines(void *context, char *buffer, size_t capacity)
{
    (void)context;
    memset(buffer, '\n', capacity);
    return (ptrdiff_t)capacity;
}

static ptrdiff_t stopping(void *context, char *buffer, size_t capacity)
{
    (void)context;
    (void)buffer;
    (void)capacity;
    return -1;
}

static int third_is_too_many(void *context, const char *line, size_t len)
{
    (void)line;
    (void)len;
    return ++*(int *)context == 3;
}

static void lines(void)
{
    const char *two = "{}\n\xff";
    lamella_text *text = NULL;
    size_t threads;
    for (threads = 0; threads < 4; threads++) {
        int count = 0;
#define STREAM(source, sink) lamella_lines_stream(source, sink, &count, NULL, LAMELLA_ANSWER_CHECK, threads)
        CHECK(STREAM(NULL, third_is_too_many) == LAMELLA_NULL_ARGUMENT);
        CHECK(STREAM(newlines, NULL) == LAMELLA_NULL_ARGUMENT);
        CHECK(STREAM(newlines, third_is_too_many) == LAMELLA_STOPPED);
        CHECK(count == 3);
        CHECK(STREAM(stopping, third_is_too_many) == LAMELLA_STOPPED);
        CHECK(STREAM(too_much, third_is_too_many) == LAMELLA_LENGTH);
        CHECK(lamella_lines_answer(two, strlen(two), NULL, LAMELLA_ANSWER_PLAN, threads, &text) == LAMELLA_OK);
        CHECK(strstr(lamella_text_data(text), "document.encoding") > strchr(lamella_text_data(text), '\n'));
        CHECK(lamella_text_free(text) == LAMELLA_OK);
    }
    CHECK(lamella_lines_answer(NULL, 0, NULL, LAMELLA_ANSWER_PLAN, 1, &text) == LAMELLA_OK);
    CHECK(lamella_text_len(text) == 0 && lamella_text_data(text)[0] == 0);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    CHECK(lamella_lines_answer(NULL, 1, NULL, LAMELLA_ANSWER_PLAN, 1, &text) == LAMELLA_NULL_ARGUMENT);
    CHECK(lamella_lines_answer(two, 2, NULL, 4711, 1, &text) == LAMELLA_OPTION);
    CHECK(lamella_lines_answer(two, 2, NULL, LAMELLA_ANSWER_PLAN, 1025, &text) == LAMELLA_OPTION);
}

static lamella_plan *shared;

/* Makes and frees its own, and reads what all share. */
static void *plan_often(void *first)
{
    int turn;
    for (turn = 0; turn < 3; turn++) {
        lamella_plan *plan = a_plan();
        lamella_text *text = NULL;
        lamella_totals totals;
        CHECK(lamella_plan_document(turn == 1 ? shared : plan, &text) == LAMELLA_OK);
        CHECK(lamella_plan_totals(shared, &totals, sizeof totals) == LAMELLA_OK);
        CHECK(lamella_plan_free(plan) == LAMELLA_OK);
        CHECK(lamella_text_len(text) == lamella_text_len(first));
        CHECK(memcmp(lamella_text_data(text), lamella_text_data(first), lamella_text_len(first)) == 0);
        CHECK(lamella_text_free(text) == LAMELLA_OK);
    }
    return NULL;
}

/* Of many who free one plan, one does. */
static void *free_shared(void *freed)
{
    lamella_status status = lamella_plan_free(shared);
    CHECK(status == LAMELLA_OK || status == LAMELLA_HANDLE);
    *(int *)freed = status == LAMELLA_OK;
    return NULL;
}

static void threads(void)
{
    pthread_t threads[4];
    int freed[4];
    lamella_text *text = NULL;
    size_t index;
    shared = a_plan();
    CHECK(lamella_plan_document(shared, &text) == LAMELLA_OK);
    for (index = 0; index < 4; index++) {
        CHECK(pthread_create(&threads[index], NULL, plan_often, text) == 0);
    }
    for (index = 0; index < 4; index++) {
        CHECK(pthread_join(threads[index], NULL) == 0);
    }
    for (index = 0; index < 4; index++) {
        CHECK(pthread_create(&threads[index], NULL, free_shared, &freed[index]) == 0);
    }
    for (index = 0; index < 4; index++) {
        CHECK(pthread_join(threads[index], NULL) == 0);
    }
    CHECK(freed[0] + freed[1] + freed[2] + freed[3] == 1);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
}

int main(int argc, char **argv)
{
    CHECK(argc == 2);
    document = read_file(argv[1], &document_len);

    CHECK(lamella_abi_version() == LAMELLA_ABI_VERSION);
    CHECK(strcmp(lamella_version(), LAMELLA_VERSION) == 0);
    CHECK(strcmp(lamella_status_text(LAMELLA_OK), "ok") == 0);
    CHECK(strcmp(lamella_status_text(4711), "unknown status") == 0);
    CHECK(strcmp(lamella_status_text(LAMELLA_INTERNAL), "unknown status") != 0);

    documents();
    handles();
    outputs();
    sizes();
    options();
    numbers();
    lines();
    threads();
    free(document);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
