/* Follows a batch at the bench: one event a line from standard input, as they stand in a batch/1 document, or a word.
 *
 *   { "weighed": "naoh", "mass": "141.2 g" }     what went in; the rest of the plan follows
 *   undo                                         takes the last event back
 *   log                                          prints the batch/1 document, with which a batch can be taken up again
 *
 * After each line it says what is poured next, to which reading, and between what the superfat of that jug lies for sure.
 *
 *   target/bench core/data/example-recipe.json < events.txt
 *
 * A file that is a batch/1 document is taken up where it was left.
 */
#include <lamella.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *read_file(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    char *bytes = NULL;
    size_t capacity = 0, got = 1;
    *len = 0;
    while (file != NULL && got > 0) {
        if (*len == capacity) {
            char *more = realloc(bytes, capacity = 2 * capacity + 4096);
            if (more == NULL) {
                break;
            }
            bytes = more;
        }
        got = fread(bytes + *len, 1, capacity - *len, file);
        *len += got;
    }
    if (file != NULL) {
        fclose(file);
    }
    return bytes;
}

/* Says what is wrong, and frees the report. */
static void complain(lamella_status status, lamella_report *report)
{
    size_t index;
    for (index = 0; index < lamella_report_count(report); index++) {
        lamella_problem problem;
        if (lamella_report_problem(report, index, &problem, sizeof problem) == LAMELLA_OK) {
            printf("%.*s (%.*s)\n", (int)problem.message.len, problem.message.data, (int)problem.code.len,
                problem.code.data);
        }
    }
    if (report == NULL) {
        printf("%s\n", lamella_status_text(status));
    }
    lamella_report_free(report);
}

static lamella_batch *begin(const char *path)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    lamella_batch *batch = NULL;
    lamella_report *report = NULL;
    size_t len;
    char *document = read_file(path, &len);
    lamella_status status;
    if (document == NULL) {
        perror(path);
        return NULL;
    }
    /* What is no batch under way may be a recipe. */
    status = lamella_batch_read(document, len, &batch, NULL);
    if (status == LAMELLA_PROBLEMS) {
        status = lamella_recipe_read(document, len, NULL, &recipe, &report);
        if (status == LAMELLA_OK) {
            status = lamella_plan_of(recipe, &plan, &report);
        }
        if (status == LAMELLA_OK) {
            status = lamella_batch_of(plan, &batch, &report);
        }
    }
    if (status != LAMELLA_OK) {
        complain(status, report);
    }
    lamella_plan_free(plan);
    lamella_recipe_free(recipe);
    free(document);
    return batch;
}

/* What is poured next. */
static void next(const lamella_batch *batch)
{
    lamella_plan *plan = NULL;
    lamella_layer layer;
    lamella_portion portion;
    lamella_interval sure;
    char mass[32], after[32], low[32], high[32];
    size_t index;
    int poured = 1;
    if (lamella_batch_plan(batch, &plan) != LAMELLA_OK) {
        return;
    }
    for (index = 0; poured && lamella_plan_layer(plan, index, &layer, sizeof layer) == LAMELLA_OK; index++) {
        lamella_batch_is_poured(batch, layer.name.data, layer.name.len, &poured);
        if (!poured && lamella_plan_portion(plan, index, &portion, sizeof portion) == LAMELLA_OK
            && lamella_plan_interval(plan, portion.jug, &sure, sizeof sure) == LAMELLA_OK) {
            lamella_decimal(portion.mass, 1, mass, sizeof mass);
            lamella_decimal(portion.after, 1, after, sizeof after);
            lamella_percent(sure.low, 1, low, sizeof low);
            lamella_percent(sure.high, 1, high, sizeof high);
            printf("next: %.*s, pour %s g, to %s g; superfat %s to %s %%\n", (int)layer.name.len, layer.name.data, mass,
                after, low, high);
        }
    }
    if (poured) {
        printf("next: nothing is left to pour\n");
    }
    lamella_plan_free(plan);
}

static void obey(lamella_batch *batch, const char *line, size_t len)
{
    lamella_report *report = NULL;
    lamella_text *text = NULL;
    lamella_status status;
    if (strcmp(line, "log") == 0) {
        status = lamella_batch_document(batch, &text);
        if (status == LAMELLA_OK) {
            fwrite(lamella_text_data(text), 1, lamella_text_len(text), stdout);
        }
    } else if (strcmp(line, "undo") == 0) {
        status = lamella_batch_undo(batch);
    } else {
        status = lamella_batch_record(batch, line, len, NULL, &report);
    }
    if (status != LAMELLA_OK) {
        complain(status, report);
    }
    lamella_text_free(text);
    next(batch);
}

int main(int argc, char **argv)
{
    static char line[65536];
    lamella_batch *batch;
    if (argc != 2 || lamella_abi_version() != LAMELLA_ABI_VERSION) {
        fprintf(stderr, "usage: %s recipe-or-batch.json\n", argv[0]);
        return 2;
    }
    batch = begin(argv[1]);
    if (batch == NULL) {
        return 1;
    }
    next(batch);
    while (fgets(line, sizeof line, stdin) != NULL) {
        size_t len = strcspn(line, "\r\n");
        line[len] = 0;
        if (len > 0) {
            obey(batch, line, len);
        }
    }
    lamella_batch_free(batch);
    return 0;
}
