/* What a careless caller may hand to the readers of a plan: facts of a label that cannot be, words and numbers that stand for
 * nothing, documents of another kind. Each is answered by a status, with a report where a document is wrong, and the next
 * call works as if nothing had been. The argument is a document that plans. */
#include "check.h"

static lamella_plan *plan;

static lamella_str str(const char *text)
{
    lamella_str made;
    made.data = text;
    made.len = text == NULL ? 0 : strlen(text);
    return made;
}

static lamella_label_facts no_facts(void)
{
    lamella_label_facts facts;
    memset(&facts, 0, sizeof facts);
    facts.size = sizeof facts;
    return facts;
}

static lamella_status label(const lamella_label_facts *facts, lamella_report **report)
{
    lamella_text *text = NULL;
    lamella_status status = lamella_plan_label(plan, facts, NULL, 0, LAMELLA_FORM_TEXT, &text, report);
    CHECK((text != NULL) == (status == LAMELLA_OK));
    CHECK(lamella_text_free(text) == LAMELLA_OK);
    return status;
}

/* The facts have these problems and no other: "pointer code", in the order of the report. */
static void is_told(const lamella_label_facts *facts, const char *const *wanted, size_t count)
{
    lamella_report *report = NULL;
    lamella_problem problem;
    char told[200];
    size_t index;
    CHECK(label(facts, &report) == LAMELLA_PROBLEMS && report != NULL);
    CHECK(lamella_report_count(report) == count);
    for (index = 0; index < count; index++) {
        CHECK(lamella_report_problem(report, index, &problem, sizeof problem) == LAMELLA_OK);
        snprintf(told, sizeof told, "%.*s %.*s", (int)problem.pointer.len, problem.pointer.data, (int)problem.code.len,
            problem.code.data);
        if (strcmp(told, wanted[index]) != 0) {
            fprintf(stderr, "%s, and not %s\n", told, wanted[index]);
            exit(1);
        }
        CHECK(problem.message.len > 0 && problem.advice.len > 0);
    }
    CHECK(lamella_report_free(report) == LAMELLA_OK);
    CHECK(label(facts, NULL) == LAMELLA_PROBLEMS);
}

/* A quantity that no bar has. */
static void is_no_quantity(const char *nominal, const char *code)
{
    lamella_label_facts facts = no_facts();
    const char *wanted[1];
    char line[80];
    facts.nominal = str(nominal);
    snprintf(line, sizeof line, "/nominal %s", code);
    wanted[0] = line;
    is_told(&facts, wanted, 1);
}

static void facts_of_a_label(void)
{
    static char long_text[201], digits[5000];
    const char *several[] = {"/responsible field.text", "/nominal quantity.range", "/batch field.text",
        "/precautions/1 field.text"};
    lamella_label_facts facts = no_facts();
    lamella_label_facts *nothing = NULL;
    lamella_str precautions[3];
    lamella_report *report = NULL;

    is_no_quantity("-5 g", "quantity.range");
    is_no_quantity("0 g", "quantity.range");
    is_no_quantity("-0 g", "quantity.range");
    is_no_quantity("1001 kg", "quantity.range");
    is_no_quantity("95", "quantity.unit.missing");
    is_no_quantity("95 mL", "quantity.unit.unknown");
    is_no_quantity("9,5 g", "quantity.comma");
    is_no_quantity("1e9 kg", "quantity.unit.unknown");
    is_no_quantity("NaN", "quantity.form");
    memset(digits, '9', sizeof digits - 1);
    is_no_quantity(digits, "quantity.form");
    facts.nominal = str("0.000000000001 g"); /* the least that a quantity can be */
    CHECK(label(&facts, NULL) == LAMELLA_OK);

    memset(long_text, 'x', sizeof long_text - 1);
    facts.responsible = str("two\nlines");
    facts.nominal = str("-5 g");
    facts.batch = str(long_text);
    facts.batch.len = 200;
    CHECK(label(&facts, NULL) == LAMELLA_PROBLEMS);
    memset(long_text, 'x', sizeof long_text);
    facts.batch.len = 201;
    precautions[0] = str("Keep dry.");
    precautions[1] = str("");
    precautions[2] = str("\xff");
    facts.precautions = precautions;
    facts.precaution_count = 2;
    is_told(&facts, several, 4);
    facts.precaution_count = 3; /* bytes that are no text are told first */
    CHECK(label(&facts, &report) == LAMELLA_PROBLEMS);
    CHECK(lamella_report_count(report) == 1 && lamella_report_free(report) == LAMELLA_OK);

    facts = no_facts();
    facts.market = 3;
    CHECK(label(&facts, NULL) == LAMELLA_OPTION);
    facts.market = LAMELLA_MARKET_GREAT_BRITAIN;
    facts.style = UINT32_MAX;
    CHECK(label(&facts, NULL) == LAMELLA_OPTION);
    facts = no_facts();
    facts.precaution_count = 1;
    CHECK(label(&facts, NULL) == LAMELLA_NULL_ARGUMENT);
    facts.precautions = precautions;
    facts.precaution_count = SIZE_MAX;
    CHECK(label(&facts, NULL) == LAMELLA_OPTION);
    facts = no_facts();
    facts.origin.len = 5;
    CHECK(label(&facts, NULL) == LAMELLA_NULL_ARGUMENT);
    facts = no_facts();
    facts.size = SIZE_MAX;
    CHECK(label(&facts, NULL) == LAMELLA_OPTION);
    facts = no_facts();
    CHECK(label(&facts, NULL) == LAMELLA_OK && label(nothing, NULL) == LAMELLA_OK);
}

#define REFUSED(call, wanted)                                    \
    do {                                                         \
        lamella_text *text = NULL;                               \
        lamella_report *report = NULL;                           \
        CHECK((call) == (wanted) && text == NULL);               \
        CHECK((report != NULL) == ((wanted) == LAMELLA_PROBLEMS)); \
        CHECK(lamella_report_free(report) == LAMELLA_OK);        \
        CHECK(label(NULL, NULL) == LAMELLA_OK);                  \
    } while (0)

static void words_and_numbers(void)
{
    uint32_t form = LAMELLA_FORM_JSON;
    REFUSED(lamella_plan_causes(plan, "Ash", 3, LAMELLA_NONE, form, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_causes(plan, NULL, 0, LAMELLA_NONE, form, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_causes(plan, "ash", 3, LAMELLA_NONE - 1, form, &text, &report), LAMELLA_INDEX);
    REFUSED(lamella_plan_causes(plan, "ash", 3, LAMELLA_NONE, UINT32_MAX, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_ingredients(plan, LAMELLA_NONE, 3, 0, form, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_ingredients(plan, LAMELLA_NONE, 0, 2, form, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_ingredients(plan, LAMELLA_NONE - 1, 0, 0, form, &text, &report), LAMELLA_PROBLEMS);
    REFUSED(lamella_plan_scents(plan, LAMELLA_NONE, 2, &text, &report), LAMELLA_OPTION);
    REFUSED(lamella_plan_scents(plan, LAMELLA_NONE - 1, 0, &text, &report), LAMELLA_INDEX);
    REFUSED(lamella_plan_dossier(plan, LAMELLA_FORM_SVG, &text, &report), LAMELLA_OPTION);
}

/* What is no document, or one of another kind, to every function that takes one. */
static void documents(void)
{
    const char *const none[] = {"", "7", "null", "[]", "{}", "\"\"", "NaN", "{\"lamella\": \"prices/2\"}",
        "{\"lamella\": \"recipe/1\"}", "{\"lamella\": \"assessment/1\", \"date\": 7}"};
    size_t index;
    for (index = 0; index < sizeof none / sizeof *none; index++) {
        const char *text_of = none[index];
        size_t len = strlen(text_of);
        REFUSED(lamella_plan_cost(plan, text_of, len, LAMELLA_FORM_TEXT, &text, &report), LAMELLA_PROBLEMS);
        REFUSED(lamella_cure(text_of, len, LAMELLA_FORM_TEXT, 0, &text, &report), LAMELLA_PROBLEMS);
        REFUSED(lamella_record(text_of, len, plan, LAMELLA_FORM_TEXT, &text, &report), LAMELLA_PROBLEMS);
        REFUSED(lamella_blend(text_of, len, LAMELLA_FORM_TEXT, &text, &report), LAMELLA_PROBLEMS);
        REFUSED(lamella_blend_fats(text_of, len, &text, &report), LAMELLA_PROBLEMS);
        if (len > 0) { /* nothing is no assessment, and no surroundings of one's own */
            REFUSED(lamella_plan_verdict(plan, text_of, len, &text, &report), LAMELLA_PROBLEMS);
            REFUSED(lamella_plan_label(plan, NULL, text_of, len, 0, &text, &report), LAMELLA_PROBLEMS);
            REFUSED(lamella_plan_heat(plan, text_of, len, LAMELLA_FORM_JSON, &text, &report), LAMELLA_PROBLEMS);
        }
        REFUSED(lamella_cure(NULL, 1, LAMELLA_FORM_TEXT, 0, &text, &report), LAMELLA_NULL_ARGUMENT);
    }
}

int main(int argc, char **argv)
{
    lamella_recipe *recipe = NULL;
    char *document;
    size_t len;
    CHECK(argc == 2);
    document = read_file(argv[1], &len);
    CHECK(lamella_recipe_read(document, len, NULL, &recipe, NULL) == LAMELLA_OK);
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    free(document);

    facts_of_a_label();
    words_and_numbers();
    documents();
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
