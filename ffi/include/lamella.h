#ifndef LAMELLA_H
#define LAMELLA_H

/* Generated from the crate lamella-ffi by a test; do not edit by hand. */

#include <stddef.h>
#include <stdint.h>

/* Version of the library that this header belongs to. */
#define LAMELLA_VERSION "0.1.0"

/**
 * Version of the ABI that this header describes: it rises with a change that a program built against an older header
 * would not survive. Compare it with lamella_abi_version() at start.
 */
#define LAMELLA_ABI_VERSION 1

/**
 * How a call went. Hundreds say where to look: 1xx the arguments of the call, 2xx the document, 9xx this library. New
 * values may come within these; a value never changes its meaning.
 */
typedef enum {
    /**
     * It went well.
     */
    LAMELLA_OK = 0,
    /**
     * A pointer that must not be NULL is.
     */
    LAMELLA_NULL_ARGUMENT = 100,
    /**
     * A length is more than any object can have.
     */
    LAMELLA_LENGTH = 101,
    /**
     * The document has problems that keep it from being planned.
     */
    LAMELLA_PROBLEMS = 200,
    /**
     * A mistake of this library. Nothing was written, and everything can go on being used.
     */
    LAMELLA_INTERNAL = 900,
} lamella_status;

/**
 * A text made by this library: UTF-8, with its length; a NUL follows it that the length does not count, and there is
 * none within. Free it with lamella_text_free. Any number of threads may read one text.
 */
typedef struct lamella_text lamella_text;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * Plans a batch: reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and writes its plan/1
 * document.
 *
 * `text` may be NULL only when `len` is nought. `out_plan` must not be NULL; `*out_plan` is set only on LAMELLA_OK.
 * `out_problems` may be NULL; `*out_problems` is set only on LAMELLA_PROBLEMS, to a problems/1 document that names every
 * problem with its place in the recipe and what to do about it. Free what was set with lamella_text_free.
 *
 * The same bytes give the same bytes on every machine. Any number of threads may call it at once.
 *
 * What the caller vouches for:
 * `text` is readable for `len` bytes; `out_plan` and `out_problems` are writable unless NULL.
 */
lamella_status lamella_plan_json(const uint8_t *text,
                                 size_t len,
                                 lamella_text **out_plan,
                                 lamella_text **out_problems);

/**
 * What a status means, in English, for messages. Takes any number; an unknown one is called an unknown status. The
 * text ends in NUL, is never NULL, lives for ever and must not be freed.
 */
const char *lamella_status_text(uint32_t status);

/**
 * The bytes of a text. They live as long as the text. NULL for NULL.
 *
 * What the caller vouches for:
 * `text` is NULL or a text that has not been freed.
 */
const uint8_t *lamella_text_data(const lamella_text *text);

/**
 * How many bytes a text has, the closing NUL not counted. Nought for NULL.
 *
 * What the caller vouches for:
 * `text` is NULL or a text that has not been freed.
 */
size_t lamella_text_len(const lamella_text *text);

/**
 * Frees a text. NULL is nothing. Never give one to free() of C.
 *
 * What the caller vouches for:
 * `text` is NULL or a text that has not been freed; it must not be used again.
 */
void lamella_text_free(lamella_text *text);

/**
 * The version of this library, such as "0.1.0". The text ends in NUL, lives for ever and must not be freed.
 */
const char *lamella_version(void);

/**
 * The version of its ABI; a program built against another one must not go on.
 */
uint32_t lamella_abi_version(void);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* LAMELLA_H */
