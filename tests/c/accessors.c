/* Prints all that the accessors say of the plan of a recipe file: the test holds it to what Rust says. */
#include "check.h"

#include <inttypes.h>

static void str(const char *name, lamella_str text)
{
    printf(" %s=%.*s", name, (int)text.len, text.data);
}

static void number(const char *name, int64_t value)
{
    printf(" %s=%" PRId64, name, value);
}

static void place(const char *name, size_t index)
{
    if (index == LAMELLA_NONE) {
        printf(" %s=-", name);
    } else {
        printf(" %s=%lu", name, (unsigned long)index);
    }
}

static void layers(const lamella_plan *plan)
{
    size_t index, at;
    for (index = 0; index < lamella_plan_layer_count(plan); index++) {
        lamella_layer layer;
        lamella_portion portion;
        CHECK(lamella_plan_layer(plan, index, &layer, sizeof layer) == LAMELLA_OK);
        CHECK(lamella_plan_portion(plan, index, &portion, sizeof portion) == LAMELLA_OK);
        CHECK(layer.jug == portion.jug);
        printf("layer");
        str("name", layer.name);
        str("swatch", layer.swatch);
        place("jug", layer.jug);
        number("volume", layer.volume);
        place("scale", portion.scale);
        number("mass", portion.mass);
        number("before", portion.before);
        number("after", portion.after);
        printf("\n");
        for (at = 0; at < layer.heights; at++) {
            lamella_height height;
            CHECK(lamella_plan_height(plan, index, at, &height, sizeof height) == LAMELLA_OK);
            printf("height");
            place("mould", height.mould);
            number("from", height.from);
            number("to", height.to);
            printf("\n");
        }
        CHECK(lamella_plan_height(plan, index, at, &(lamella_height){0, 0, 0}, sizeof(lamella_height)) == LAMELLA_INDEX);
    }
}

static void jugs(const lamella_plan *plan)
{
    size_t index, at, layer;
    for (index = 0; index < lamella_plan_jug_count(plan); index++) {
        lamella_jug jug;
        CHECK(lamella_plan_jug(plan, index, &jug, sizeof jug) == LAMELLA_OK);
        printf("jug");
        str("name", jug.name);
        printf(" layers=");
        for (at = 0; at < jug.layers; at++) {
            CHECK(lamella_plan_jug_layer(plan, index, at, &layer) == LAMELLA_OK);
            printf("%lu,", (unsigned long)layer);
        }
        CHECK(lamella_plan_jug_layer(plan, index, at, &layer) == LAMELLA_INDEX);
        place("scale", jug.scale);
        if (jug.has_tare) {
            number("tare", jug.tare);
        }
        number("portion", jug.portion);
        number("portion_ideal", jug.portion_ideal);
        number("lye", jug.lye);
        number("lye_ideal", jug.lye_ideal);
        number("alkali", jug.alkali);
        number("lye_water", jug.lye_water);
        number("net", jug.net);
        number("gross", jug.gross);
        number("left", jug.left);
        number("superfat", jug.superfat);
        number("superfat_ideal", jug.superfat_ideal);
        printf("\n");
    }
}

static void weigh_list(const lamella_plan *plan)
{
    size_t index;
    for (index = 0; index < lamella_plan_weigh_count(plan); index++) {
        lamella_weigh line;
        CHECK(lamella_plan_weigh(plan, index, &line, sizeof line) == LAMELLA_OK);
        printf("weigh");
        str("id", line.id);
        str("name", line.name);
        str("pointer", line.pointer);
        number("weighed", line.weighed);
        number("ideal", line.ideal);
        place("scale", line.scale);
        place("jug", line.jug);
        number("vessel", line.vessel);
        number("kind", line.kind);
        printf("\n");
    }
    for (index = 0; index < lamella_plan_scale_count(plan); index++) {
        lamella_scale scale;
        CHECK(lamella_plan_scale(plan, index, &scale, sizeof scale) == LAMELLA_OK);
        printf("scale");
        str("name", scale.name);
        number("step", scale.step);
        number("capacity", scale.capacity);
        printf("\n");
    }
}

static void remarks(const lamella_plan *plan)
{
    size_t index;
    for (index = 0; index < lamella_plan_caution_count(plan); index++) {
        lamella_caution caution;
        CHECK(lamella_plan_caution(plan, index, &caution, sizeof caution) == LAMELLA_OK);
        printf("caution");
        str("code", caution.code);
        str("pointer", caution.pointer);
        str("place", caution.place);
        str("message", caution.message);
        str("figure", caution.figure);
        str("limit", caution.limit);
        str("basis", caution.basis);
        str("source", caution.source);
        str("advice", caution.advice);
        printf("\n");
    }
    for (index = 0; index < lamella_plan_step_count(plan); index++) {
        lamella_step step;
        CHECK(lamella_plan_step(plan, index, &step, sizeof step) == LAMELLA_OK);
        printf("step");
        str("work", step.work);
        place("jug", step.jug);
        place("layer", step.layer);
        printf("\n");
    }
}

static void totals(const lamella_plan *plan)
{
    lamella_totals totals;
    CHECK(lamella_plan_totals(plan, &totals, sizeof totals) == LAMELLA_OK);
    printf("totals");
    number("fat", totals.fat);
    number("fat_ideal", totals.fat_ideal);
    number("weighed_in", totals.weighed_in);
    number("poured", totals.poured);
    number("left", totals.left);
    number("lye", totals.lye);
    number("lye_left", totals.lye_left);
    number("volume", totals.volume);
    number("lye_concentration", totals.lye_concentration);
    number("superfat_aimed", totals.superfat_aimed);
    number("superfat_ideal", totals.superfat_ideal);
    number("superfat", totals.superfat);
    place("bars", totals.bars);
    number("bar_fresh", totals.bar_fresh);
    number("bar_cured", totals.bar_cured);
    printf("\n");
}

int main(int argc, char **argv)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    char *document;
    size_t len;
    CHECK(argc == 2);
    document = read_file(argv[1], &len);
    CHECK(lamella_recipe_read(document, len, NULL, &recipe, NULL) == LAMELLA_OK);
    free(document);
    CHECK(lamella_plan_of(recipe, &plan, NULL) == LAMELLA_OK);
    CHECK(lamella_recipe_free(recipe) == LAMELLA_OK);
    layers(plan);
    jugs(plan);
    weigh_list(plan);
    remarks(plan);
    totals(plan);
    CHECK(lamella_plan_free(plan) == LAMELLA_OK);
    CHECK(lamella_live_handles() == 0);
    return 0;
}
