/* A recipe, and the files of its sheet as text and as Markdown and of its first drawing, byte for byte. */
#include "check.h"

int main(int argc, char **argv)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    lamella_text *text = NULL;
    char *document;
    size_t len;
    CHECK(argc == 5);
    document = read_file(argv[1], &len);
    CHECK(lamella_recipe_read(document, len, NULL, &recipe, NULL) == LAMELLA_OK);
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    free(document);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    CHECK(lamella_plan_text(plan, &text) == LAMELLA_OK);
    CHECK(is_file(text, argv[2]));
    CHECK(lamella_plan_markdown(plan, &text) == LAMELLA_OK);
    CHECK(is_file(text, argv[3]));
    CHECK(lamella_plan_svg(plan, 0, &text) == LAMELLA_OK);
    CHECK(is_file(text, argv[4]));
    CHECK(lamella_plan_svg(plan, lamella_plan_mould_count(plan), &text) == LAMELLA_INDEX);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
