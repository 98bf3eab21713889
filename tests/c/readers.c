/* Prints what a reader makes of a document, or the codes of its problems: KIND FORM RECIPE DOCUMENT, where RECIPE and DOCUMENT
 * may be "-" for none. */
#include "check.h"

static lamella_plan *plan_of(const char *path)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    size_t len;
    char *document;
    if (strcmp(path, "-") == 0) {
        return NULL;
    }
    document = read_file(path, &len);
    CHECK(lamella_recipe_read(document, len, NULL, &recipe, NULL) == LAMELLA_OK);
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    free(document);
    return plan;
}

static lamella_status read_as(const char *kind, uint32_t form, const lamella_plan *plan, const char *document,
    size_t len, lamella_text **out, lamella_report **report)
{
    lamella_str precautions[2] = {{"Keep dry.", 9}, {"Not for eyes.", 13}};
    lamella_label_facts facts;
    memset(&facts, 0, sizeof facts);
    facts.size = sizeof facts;
    facts.style = LAMELLA_STYLE_AS_FORMED;
    facts.nominal.data = "95 g";
    facts.nominal.len = 4;
    facts.precautions = precautions;
    facts.precaution_count = 2;
#define IS(name) (strcmp(kind, name) == 0)
    if (IS("cost")) {
        return lamella_plan_cost(plan, document, len, form, out, report);
    } else if (IS("cure")) {
        return lamella_cure(document, len, form, 0, out, report);
    } else if (IS("record")) {
        return lamella_record(document, len, plan, form, out, report);
    } else if (IS("causes")) {
        return lamella_plan_causes(plan, "soft-centre", 11, LAMELLA_NONE, form, out, report);
    } else if (IS("heat")) {
        return lamella_plan_heat(plan, document, len, form, out, report);
    } else if (IS("blend")) {
        return lamella_blend(document, len, form, out, report);
    } else if (IS("blend-fats")) {
        return lamella_blend_fats(document, len, out, report);
    } else if (IS("verdict")) {
        return lamella_plan_verdict(plan, document, len, out, report);
    } else if (IS("label")) {
        return lamella_plan_label(plan, &facts, document, len, form, out, report);
    } else if (IS("ingredients")) {
        return lamella_plan_ingredients(plan, LAMELLA_NONE, LAMELLA_MARKET_GREAT_BRITAIN, LAMELLA_STYLE_AS_CHARGED,
            form, out, report);
    } else if (IS("dossier")) {
        return lamella_plan_dossier(plan, form, out, report);
    } else if (IS("scents")) {
        return lamella_plan_scents(plan, LAMELLA_NONE, 0, out, report);
    }
    CHECK(!"a kind");
    return LAMELLA_OPTION;
}

int main(int argc, char **argv)
{
    lamella_text *text = NULL;
    lamella_report *report = NULL;
    lamella_plan *plan;
    lamella_status status;
    char *document = NULL;
    size_t len = 0, index;
    uint32_t form;
    CHECK(argc == 5);
    form = (uint32_t)strtoul(argv[2], NULL, 10);
    plan = plan_of(argv[3]);
    if (strcmp(argv[4], "-") != 0) {
        document = read_file(argv[4], &len);
    }
    status = read_as(argv[1], form, plan, document, len, &text, &report);
    CHECK((text != NULL) == (status == LAMELLA_OK) && (report != NULL) == (status == LAMELLA_PROBLEMS));
    if (text != NULL) {
        fwrite(lamella_text_data(text), 1, lamella_text_len(text), stdout);
    } else if (report == NULL) {
        printf("%s\n", lamella_status_text(status));
    }
    for (index = 0; index < lamella_report_count(report); index++) {
        lamella_problem problem;
        CHECK(lamella_report_problem(report, index, &problem, sizeof problem) == LAMELLA_OK);
        printf("%.*s %.*s\n", (int)problem.code.len, problem.code.data, (int)problem.pointer.len, problem.pointer.data);
    }
    CHECK(lamella_text_free(text) == LAMELLA_OK && lamella_report_free(report) == LAMELLA_OK);
    /* Nothing else is there, and no form but those. */
    text = NULL;
    if (strcmp(argv[1], "cure") != 0 && strcmp(argv[1], "blend") != 0 && strcmp(argv[1], "blend-fats") != 0
        && strcmp(argv[1], "record") != 0) {
        CHECK(read_as(argv[1], form, NULL, document, len, &text, &report) == LAMELLA_NULL_ARGUMENT);
    }
    if (form != 0 && status == LAMELLA_OK) {
        CHECK(read_as(argv[1], 9, plan, document, len, &text, NULL) == LAMELLA_OPTION);
    }
    CHECK(text == NULL);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    free(document);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
