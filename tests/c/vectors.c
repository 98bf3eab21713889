/* One argument: a file with a case in each three lines: the status that is expected, a document, and the file of the text
 * that must come of it, byte for byte; in one call, and by way of the handles. */
#include "check.h"

static void in_one_call(const char *document, size_t len, lamella_status wanted, const char *expected)
{
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    lamella_status status = lamella_plan_json(document, len, &plan, &problems);
    CHECK(status == wanted);
    CHECK((plan != NULL) == (status == LAMELLA_OK));
    CHECK((problems != NULL) == (status == LAMELLA_PROBLEMS));
    CHECK(is_file(plan != NULL ? plan : problems, expected));
}

/* The canonical text of a recipe reads as the same recipe. */
static void is_canonical(const lamella_recipe *recipe)
{
    lamella_recipe *again = NULL;
    lamella_text *text = NULL;
    lamella_text *text_again = NULL;
    size_t len;
    CHECK(lamella_recipe_document(recipe, &text) == LAMELLA_OK);
    len = lamella_text_len(text);
    CHECK(lamella_recipe_read(lamella_text_data(text), len, NULL, &again, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_document(again, &text_again) == LAMELLA_OK);
    CHECK(lamella_text_len(text_again) == len);
    CHECK(memcmp(lamella_text_data(text), lamella_text_data(text_again), len) == 0);
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    CHECK(lamella_text_free(text_again) == LAMELLA_OK);
    CHECK(lamella_recipe_free(again) == LAMELLA_OK);
}

static void by_handles(const char *document, size_t len, lamella_status wanted, const char *expected)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    lamella_report *report = NULL;
    lamella_text *text = NULL;
    lamella_status status = lamella_recipe_read(document, len, NULL, &recipe, &report);
    CHECK((recipe != NULL) == (status == LAMELLA_OK));
    if (status == LAMELLA_OK) {
        is_canonical(recipe);
        status = lamella_plan_of(recipe, &plan, &report);
        CHECK((plan != NULL) == (status == LAMELLA_OK));
        CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    }
    CHECK(status == wanted);
    CHECK((report != NULL) == (status == LAMELLA_PROBLEMS));
    if (plan != NULL) {
        CHECK(lamella_plan_document(plan, &text) == LAMELLA_OK);
        CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    } else {
        size_t index;
        CHECK(lamella_report_count(report) > 0);
        CHECK(lamella_report_document(report, &text) == LAMELLA_OK);
        for (index = 0; index < lamella_report_count(report); index++) {
            lamella_problem problem;
            CHECK(lamella_report_problem(report, index, &problem, sizeof problem) == LAMELLA_OK);
            CHECK(problem.code.len > 0 && problem.message.len > 0 && problem.advice.len > 0);
            CHECK(problem.pointer.len == 0 || problem.pointer.data[0] == '/');
        }
        CHECK(lamella_report_free(report) == LAMELLA_OK);
    }
    CHECK(is_file(text, expected));
}

/* The next line of a file, without its newline; 0 at the end. */
static int line(FILE *file, char *buffer, size_t size)
{
    if (fgets(buffer, (int)size, file) == NULL) {
        return 0;
    }
    buffer[strcspn(buffer, "\n")] = 0;
    return 1;
}

int main(int argc, char **argv)
{
    static char status[16], path[4096], expected[4096];
    FILE *cases;
    int count = 0;
    CHECK(argc == 2);
    cases = fopen(argv[1], "r");
    CHECK(cases != NULL);
    while (line(cases, status, sizeof status)) {
        lamella_status wanted = (lamella_status)strtoul(status, NULL, 10);
        char *document;
        size_t len;
        CHECK(line(cases, path, sizeof path) && line(cases, expected, sizeof expected));
        /* In the output of a run that fails, the last one is the culprit. */
        printf("%s\n", path);
        fflush(stdout);
        document = read_file(path, &len);
        in_one_call(document, len, wanted, expected);
        by_handles(document, len, wanted, expected);
        free(document);
        count++;
    }
    fclose(cases);
    CHECK(count > 0);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
