/* Plans the batch of a recipe file: the plan goes to standard output, or its problems to standard error.
 *
 * Build and run, from the folder of the project (what follows -llamella_ffi is for Linux):
 *
 *   cargo build --release -p lamella-ffi
 *   cc -std=c99 -Wall -Iffi/include ffi/examples/plan.c -o target/plan \
 *      -Ltarget/release -llamella_ffi -Wl,-rpath,target/release
 *   target/plan recipe.json > plan.json
 */
#include <lamella.h>

#include <stdio.h>
#include <stdlib.h>

/* The bytes of a file; NULL when it cannot be read. The caller frees them. */
static unsigned char *read_file(const char *path, size_t *len)
{
    FILE *file = fopen(path, "rb");
    unsigned char *bytes = NULL;
    size_t capacity = 0;
    *len = 0;
    if (file == NULL) {
        return NULL;
    }
    for (;;) {
        if (*len == capacity) {
            unsigned char *more = realloc(bytes, capacity = 2 * capacity + 4096);
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

static void print(lamella_text *text, FILE *to)
{
    fwrite(lamella_text_data(text), 1, lamella_text_len(text), to);
    lamella_text_free(text);
}

int main(int argc, char **argv)
{
    lamella_text *plan = NULL;
    lamella_text *problems = NULL;
    unsigned char *recipe;
    size_t len;
    lamella_status status;

    if (argc != 2) {
        fprintf(stderr, "usage: %s recipe.json\n", argv[0]);
        return 2;
    }
    if (lamella_abi_version() != LAMELLA_ABI_VERSION) {
        fprintf(stderr, "built for another Lamella than %s\n", lamella_version());
        return 2;
    }
    recipe = read_file(argv[1], &len);
    if (recipe == NULL) {
        perror(argv[1]);
        return 2;
    }
    status = lamella_plan_json(recipe, len, &plan, &problems);
    free(recipe);
    switch (status) {
    case LAMELLA_OK:
        print(plan, stdout);
        return 0;
    case LAMELLA_PROBLEMS:
        print(problems, stderr);
        return 1;
    default:
        fprintf(stderr, "%s\n", lamella_status_text(status));
        return 2;
    }
}
