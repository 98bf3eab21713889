/* Plans the batch of a recipe file and prints its weigh list; problems go to standard error, each with its place.
 *
 * Build and run, from the folder of the project (what follows -llamella_ffi is for Linux):
 *
 *   cargo build --release -p lamella-ffi
 *   cc -std=c99 -Wall -Iffi/include ffi/examples/plan.c -o target/plan \
 *      -Ltarget/release -llamella_ffi -Wl,-rpath,target/release
 *   target/plan core/data/example-recipe.json
 *
 * Where the library is installed (ffi/install), see Makefile and CMakeLists.txt beside this file.
 */
#include <lamella.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The bytes of a file; NULL when it cannot be read. The caller frees them. */
static char *read_file(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    char *bytes = NULL;
    size_t capacity = 0;
    *len = 0;
    if (file == NULL) {
        return NULL;
    }
    for (;;) {
        if (*len == capacity) {
            char *more = realloc(bytes, capacity = 2 * capacity + 4096);
            if (more == NULL) {
                break;
            }
            bytes = more;
        }
        size_t got = fread(bytes + *len, 1, capacity - *len, file);
        *len += got;
        if (got == 0) {
            break;
        }
    }
    if (ferror(file) || !feof(file)) {
        free(bytes);
        bytes = NULL;
    }
    fclose(file);
    return bytes;
}

/* How many decimals a scale shows. */
static uint32_t decimals(lamella_mass step)
{
    uint32_t left = 12;
    while (left > 0 && step % 10 == 0) {
        step /= 10;
        left--;
    }
    return left;
}

static int print_weigh_list(const lamella_plan *plan)
{
    size_t index, jug = LAMELLA_NONE;
    lamella_vessel vessel = LAMELLA_VESSEL_OTHER;
    for (index = 0; index < lamella_plan_weigh_count(plan); index++) {
        lamella_weigh line;
        lamella_scale scale;
        char grams[32];
        if (lamella_plan_weigh(plan, index, &line, sizeof line) != LAMELLA_OK
            || lamella_plan_scale(plan, line.scale, &scale, sizeof scale) != LAMELLA_OK
            || lamella_decimal(line.weighed, decimals(scale.step), grams, sizeof grams) != LAMELLA_OK) {
            return 2;
        }
        if (line.vessel != vessel || line.jug != jug) {
            lamella_jug into;
            vessel = line.vessel;
            jug = line.jug;
            if (lamella_plan_jug(plan, jug, &into, sizeof into) == LAMELLA_OK) {
                printf("jug %.*s\n", (int)into.name.len, into.name.data);
            } else {
                printf("%s\n", vessel == LAMELLA_VESSEL_LYE ? "lye" : "pot");
            }
        }
        printf("%10s g  %.*s\n", grams, (int)line.name.len, line.name.data);
    }
    return 0;
}

/* Prints the report, frees it and gives the exit code. */
static int refuse(lamella_status status, lamella_report *report, const char *document, size_t len, const char *name)
{
    lamella_text *text = NULL;
    if (lamella_report_text(report, document, len, name, strlen(name), &text) == LAMELLA_OK) {
        fwrite(lamella_text_data(text), 1, lamella_text_len(text), stderr);
    } else {
        fprintf(stderr, "%s\n", lamella_status_text(status));
    }
    lamella_text_free(text);
    lamella_report_free(report);
    return status == LAMELLA_PROBLEMS ? 1 : 2;
}

int main(int argc, char **argv)
{
    lamella_recipe *recipe = NULL;
    lamella_plan *plan = NULL;
    lamella_report *report = NULL;
    lamella_status status;
    char *document;
    size_t len;
    int code;

    if (argc != 2) {
        fprintf(stderr, "usage: %s recipe.json\n", argv[0]);
        return 2;
    }
    if (lamella_abi_version() != LAMELLA_ABI_VERSION) {
        fprintf(stderr, "built for another Lamella than %s\n", lamella_version());
        return 2;
    }
    document = read_file(argv[1], &len);
    if (document == NULL) {
        perror(argv[1]);
        return 2;
    }
    status = lamella_recipe_read(document, len, NULL, &recipe, &report);
    if (status == LAMELLA_OK) {
        status = lamella_plan_of(recipe, &plan, &report);
    }
    code = status == LAMELLA_OK ? print_weigh_list(plan) : refuse(status, report, document, len, argv[1]);
    lamella_plan_free(plan);
    lamella_recipe_free(recipe);
    free(document);
    return code;
}
