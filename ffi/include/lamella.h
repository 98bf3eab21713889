/* Lamella plans bar soap that is poured in layers. This is its C interface.
 *
 * Calls. A call that can fail returns a lamella_status; it writes its results, the last arguments, only on LAMELLA_OK.
 * Nothing that is handed in crashes: NULL, a freed handle, text that is no UTF-8, nonsense are errors with a status of
 * their own. Where a document has problems, all of them come at once in a lamella_report, for those who pass one.
 *
 * Handles. lamella_recipe, lamella_plan and the others are opaque. What a call hands out belongs to the caller, who frees
 * it with the function of its name: lamella_plan_free and so on. NULL may be freed. A handle is a key in the guise of a
 * pointer and never used twice, so that one that was freed is LAMELLA_HANDLE wherever it turns up. Do not look behind it.
 *
 * Threads. Every function may be called from any thread at any time, and a handle may be used by several at once. A handle
 * that one thread frees while another uses it is used to the end of that call; views of it are gone.
 *
 * Text. Text goes in as a pointer with a length in bytes, and need not end in NUL. It is UTF-8. It comes out as
 * lamella_str, a view that lives as long as the handle that it was asked of, or as lamella_text, which the caller frees.
 *
 * Structs. A struct is written for the size that the caller states, so that newer libraries serve older programs: fields
 * are only ever added at the end, and what a library does not know of it is nought.
 *
 * Numbers. Figures are 64-bit integers in trillionths of their unit, exact: see lamella_mass. No function takes a double.
 */


#ifndef LAMELLA_H
#define LAMELLA_H

/* Generated from the crate lamella-ffi by a test; do not edit by hand. */

#include <stddef.h>
#include <stdint.h>

/* Version of the library that this header belongs to. */
#define LAMELLA_VERSION "0.1.0"

/* No index: an item that is not there. */
#define LAMELLA_NONE ((size_t)-1)


/**
 * Plain text of at most 96 columns.
 */
#define LAMELLA_FORM_TEXT 0

/**
 * Markdown: CommonMark with tables.
 */
#define LAMELLA_FORM_MARKDOWN 1

/**
 * JSON.
 */
#define LAMELLA_FORM_JSON 2

/**
 * Tables as comma-separated values.
 */
#define LAMELLA_FORM_CSV 3

/**
 * A drawing, as SVG.
 */
#define LAMELLA_FORM_SVG 4

/**
 * Answer with the whole plan, as a plan/1 document.
 */
#define LAMELLA_ANSWER_PLAN 0

/**
 * Answer with what a look through a catalogue wants to know, as a check/1 document: name, layers, fat, what is poured,
 * superfat, cautions.
 */
#define LAMELLA_ANSWER_CHECK 1

/**
 * The European Union, and Northern Ireland.
 */
#define LAMELLA_MARKET_EUROPEAN_UNION 0

/**
 * England, Scotland and Wales.
 */
#define LAMELLA_MARKET_GREAT_BRITAIN 1

/**
 * The United States.
 */
#define LAMELLA_MARKET_UNITED_STATES 2

/**
 * Ingredients are named as what was weighed in.
 */
#define LAMELLA_STYLE_AS_CHARGED 0

/**
 * Ingredients are named as what became of it.
 */
#define LAMELLA_STYLE_AS_FORMED 1

/**
 * Version of the ABI that this header describes: it rises with a change that a program built against an older header
 * would not survive. Compare it with lamella_abi_version() at start.
 */
#define LAMELLA_ABI_VERSION 1

/**
 * How a call went. Hundreds say where to look: 1xx the arguments of the call, 2xx the document, 9xx this library. New
 * values may come within these; a value never changes its meaning. Unless a call returns LAMELLA_OK it has written
 * nothing, except that LAMELLA_PROBLEMS and LAMELLA_INTERNAL set the report of a call that has one.
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
     * A handle that was freed, is of another kind, or never was one.
     */
    LAMELLA_HANDLE = 102,
    /**
     * An option is outside its range.
     */
    LAMELLA_OPTION = 103,
    /**
     * There is no item of this index.
     */
    LAMELLA_INDEX = 104,
    /**
     * A figure passes what 64 bits hold in trillionths (9 tonnes of it, 9 cubic metres); the document has it.
     */
    LAMELLA_RANGE = 105,
    /**
     * A buffer is too short for what was to be written.
     */
    LAMELLA_BUFFER = 106,
    /**
     * A callback asked for the end.
     */
    LAMELLA_STOPPED = 107,
    /**
     * The document has problems; the report has them.
     */
    LAMELLA_PROBLEMS = 200,
    /**
     * A mistake of this library; the report has its message. Everything can go on being used.
     */
    LAMELLA_INTERNAL = 900,
} lamella_status;

/**
 * Whether alkali can be left over. New ones may come.
 */
typedef enum {
    /**
     * Fat is left over, whatever the inputs are.
     */
    LAMELLA_VERDICT_FAT_LEFT = 1,
    /**
     * Alkali may be left over.
     */
    LAMELLA_VERDICT_MAY_BE_LYE_HEAVY = 2,
    /**
     * Alkali is left over, whatever the inputs are.
     */
    LAMELLA_VERDICT_LYE_HEAVY = 3,
} lamella_verdict;

/**
 * What something is weighed into. New ones may come.
 */
typedef enum {
    /**
     * Something that this header does not know.
     */
    LAMELLA_VESSEL_OTHER = 0,
    /**
     * The pot of fats.
     */
    LAMELLA_VESSEL_POT = 1,
    /**
     * The vessel of the lye.
     */
    LAMELLA_VESSEL_LYE = 2,
    /**
     * A jug.
     */
    LAMELLA_VESSEL_JUG = 3,
} lamella_vessel;

/**
 * What a line of the weigh list is. New ones may come.
 */
typedef enum {
    /**
     * Something that this header does not know.
     */
    LAMELLA_WEIGH_OTHER = 0,
    /**
     * A fat of the pot.
     */
    LAMELLA_WEIGH_FAT = 1,
    /**
     * A dose that goes in before the lye: into the pot, the lye or a jug.
     */
    LAMELLA_WEIGH_DOSE = 2,
    /**
     * An alkali.
     */
    LAMELLA_WEIGH_ALKALI = 3,
    /**
     * Plain water.
     */
    LAMELLA_WEIGH_WATER = 4,
    /**
     * A liquid in place of water.
     */
    LAMELLA_WEIGH_LIQUID = 5,
    /**
     * What a jug gets from the pot.
     */
    LAMELLA_WEIGH_FROM_POT = 6,
    /**
     * What a jug gets of the lye.
     */
    LAMELLA_WEIGH_FROM_LYE = 7,
    /**
     * A fat that goes in after the cook.
     */
    LAMELLA_WEIGH_HELD = 8,
    /**
     * A dose that goes in last.
     */
    LAMELLA_WEIGH_LATE_DOSE = 9,
} lamella_weigh_kind;

/**
 * A batch under way: a plan, what really happened, and the rest of the plan that follows from it. It changes with what is
 * recorded; several threads may use one, and take turns. Free it with lamella_batch_free.
 */
typedef struct lamella_batch lamella_batch;

/**
 * A batch, planned. It does not change: any number of threads may use it. Free it with lamella_plan_free.
 */
typedef struct lamella_plan lamella_plan;

/**
 * A recipe that was read and has no problems. It does not change: any number of threads may use it. Free it with
 * lamella_recipe_free; plans that were made of it go on without it.
 */
typedef struct lamella_recipe lamella_recipe;

/**
 * What is wrong with a document, or the message of a mistake of this library: one problem or more. Free it with
 * lamella_report_free. Any number of threads may read one report.
 */
typedef struct lamella_report lamella_report;

/**
 * A text made by this library: UTF-8, with its length; a NUL follows it that the length does not count, and there is
 * none within. Free it with lamella_text_free, never with free() of C. Any number of threads may read one text.
 */
typedef struct lamella_text lamella_text;

/**
 * A share in trillionths (1e-12), exact: 1 000 000 000 000 is the whole, 50 000 000 000 is 5 %.
 */
typedef int64_t lamella_share;

/**
 * How sure a superfat is.
 */
typedef struct {
    /**
     * As the plan has it.
     */
    lamella_share superfat;
    /**
     * Lower end of the guaranteed interval: it cannot be lower while saponification values, purities, scales and residues
     * are within their ranges. Rounded down.
     */
    lamella_share low;
    /**
     * Upper end. Rounded up.
     */
    lamella_share high;
    /**
     * With every input in the middle of its range.
     */
    lamella_share expected;
    /**
     * Standard uncertainty (JCGM 100), as an absolute share.
     */
    lamella_share uncertainty;
    /**
     * Lower end of the 95 % coverage interval, within the guaranteed one.
     */
    lamella_share covered_low;
    /**
     * Its upper end.
     */
    lamella_share covered_high;
    /**
     * Whether alkali can be left over.
     */
    lamella_verdict verdict;
} lamella_interval;

/**
 * A view of a text that belongs to a handle: UTF-8, `len` bytes, no NUL after them. It lives as long as the handle that
 * it was asked of. `data` is never NULL.
 */
typedef struct {
    /**
     * The first byte.
     */
    const char *data;
    /**
     * How many bytes there are.
     */
    size_t len;
} lamella_str;

/**
 * A mass in picograms (1e-12 g), exact: a mass has at most twelve decimals of a gram, so that nothing is rounded, not
 * even an ounce. Sums and differences are exact too. Whole scale steps: divide it by the step of its scale. 64 bits hold
 * 9 223 kg; a figure beyond is LAMELLA_RANGE.
 */
typedef int64_t lamella_mass;

/**
 * A jug: the vessel of the mixture of one layer or more. The view lives as long as the plan.
 */
typedef struct {
    /**
     * What it is called.
     */
    lamella_str name;
    /**
     * How many layers are poured from it; see lamella_plan_jug_layer.
     */
    size_t layers;
    /**
     * Index of the scale that it stands on.
     */
    size_t scale;
    /**
     * 1 when its own mass is known, else 0.
     */
    uint64_t has_tare;
    /**
     * Its own mass; nought when it is not known.
     */
    lamella_mass tare;
    /**
     * What it gets from the pot, in whole steps.
     */
    lamella_mass portion;
    /**
     * The same at full precision.
     */
    lamella_mass portion_ideal;
    /**
     * What it gets of the lye, in whole steps.
     */
    lamella_mass lye;
    /**
     * The same at full precision.
     */
    lamella_mass lye_ideal;
    /**
     * Pure alkali dissolved in that lye.
     */
    lamella_mass alkali;
    /**
     * Water in that lye.
     */
    lamella_mass lye_water;
    /**
     * All that is in it before the first pour.
     */
    lamella_mass net;
    /**
     * What the scale then shows with it.
     */
    lamella_mass gross;
    /**
     * What stays in it after the last pour.
     */
    lamella_mass left;
    /**
     * Superfat of what is weighed; below nought it is lye-heavy.
     */
    lamella_share superfat;
    /**
     * Superfat at full precision.
     */
    lamella_share superfat_ideal;
} lamella_jug;

/**
 * A volume in 1e-12 mL, exact.
 */
typedef int64_t lamella_volume;

/**
 * A layer of the bar. The views live as long as the plan.
 */
typedef struct {
    /**
     * What it is called.
     */
    lamella_str name;
    /**
     * How it looks, "#rrggbb", for drawing.
     */
    lamella_str swatch;
    /**
     * Index of the jug that it is poured from.
     */
    size_t jug;
    /**
     * In how many moulds it has a height; see lamella_plan_height.
     */
    size_t heights;
    /**
     * Volume of its portion.
     */
    lamella_volume volume;
} lamella_layer;

/**
 * What is weighed out of a jug for one layer, by difference: pour until the scale shows `after`.
 */
typedef struct {
    /**
     * Index of the jug.
     */
    size_t jug;
    /**
     * Index of the scale that the jug stands on.
     */
    size_t scale;
    /**
     * What is poured: before - after, a whole number of steps.
     */
    lamella_mass mass;
    /**
     * What the scale shows with the jug on it before the pour. A jug whose own mass is not known counts as nought.
     */
    lamella_mass before;
    /**
     * What it shows after the pour.
     */
    lamella_mass after;
} lamella_portion;

/**
 * A length in 1e-12 mm, exact.
 */
typedef int64_t lamella_length;

/**
 * Where a layer lies in a mould.
 */
typedef struct {
    /**
     * Index of the mould.
     */
    size_t mould;
    /**
     * Lower face, above the bottom of the mould.
     */
    lamella_length from;
    /**
     * Upper face.
     */
    lamella_length to;
} lamella_height;

/**
 * Gives more of the lines: writes at most `capacity` bytes to `buffer` and returns how many; nought at the end, less
 * than nought to stop. It may divide lines anywhere. It must not throw or jump out.
 */
typedef ptrdiff_t (*lamella_source)(void *context, char *buffer, size_t capacity);

/**
 * Takes an answer: `len` bytes of UTF-8 that end in a newline and live until it returns. Returns nought to go on, anything
 * else to stop. It must not throw or jump out.
 */
typedef int (*lamella_sink)(void *context, const char *line, size_t len);

/**
 * Limits on the documents that are read. A caller who takes documents of strangers may ask for less than the defaults,
 * which are the most that the format allows; more is LAMELLA_OPTION. Fill one with lamella_options_init, then change
 * what is to differ. Where options are asked for, NULL stands for the defaults.
 */
typedef struct {
    /**
     * sizeof of this struct, as the caller's header has it.
     */
    size_t size;
    /**
     * Most bytes of a document: 1 048 576. A longer one is refused before it is read.
     */
    size_t document_bytes;
    /**
     * Most layers: 200.
     */
    size_t layers;
    /**
     * Most fats, liquids, doses, colours and scents together: 10 000.
     */
    size_t materials;
} lamella_options;

/**
 * What the maker says for a label beside the recipe. Zero it but for its size, then fill in what there is; what is left
 * empty is told as missing. A text that cannot be (a quantity that is none, a line break) is LAMELLA_PROBLEMS, and the
 * report's pointers are the names of these fields: "/nominal". The texts are read during the call only.
 */
typedef struct {
    /**
     * sizeof of this struct, as the caller's header has it.
     */
    size_t size;
    /**
     * One of LAMELLA_MARKET_...
     */
    uint32_t market;
    /**
     * One of LAMELLA_STYLE_...
     */
    uint32_t style;
    /**
     * Name and address of the responsible person.
     */
    lamella_str responsible;
    /**
     * Country of origin, for imported bars.
     */
    lamella_str origin;
    /**
     * Nominal quantity with its unit, such as "95 g"; above zero.
     */
    lamella_str nominal;
    /**
     * Number of the batch.
     */
    lamella_str batch;
    /**
     * Date of minimum durability, or the months after opening.
     */
    lamella_str durability;
    /**
     * What it is for, as "Soap for hands and body".
     */
    lamella_str function;
    /**
     * Particular precautions, so many as the next field says.
     */
    const lamella_str *precautions;
    /**
     * How many precautions there are, at most 100.
     */
    size_t precaution_count;
} lamella_label_facts;

/**
 * What the batch is as a whole.
 */
typedef struct {
    /**
     * Fat of the recipe's fat lines, as weighed.
     */
    lamella_mass fat;
    /**
     * The same at full precision.
     */
    lamella_mass fat_ideal;
    /**
     * Everything that is weighed in: poured and left together, exactly.
     */
    lamella_mass weighed_in;
    /**
     * Everything that is poured.
     */
    lamella_mass poured;
    /**
     * Everything that stays behind, in the pot, in the vessel of the lye and in the jugs.
     */
    lamella_mass left;
    /**
     * All of the lye.
     */
    lamella_mass lye;
    /**
     * What stays of it in its vessel.
     */
    lamella_mass lye_left;
    /**
     * Volume of what is poured.
     */
    lamella_volume volume;
    /**
     * Pure alkali / (pure alkali + water) of the lye as weighed.
     */
    lamella_share lye_concentration;
    /**
     * Superfat that the recipe asks for.
     */
    lamella_share superfat_aimed;
    /**
     * Superfat of all that is mixed, at full precision.
     */
    lamella_share superfat_ideal;
    /**
     * Superfat of all that is mixed, from what is weighed.
     */
    lamella_share superfat;
    /**
     * How many bars the recipe asks for; nought when it does not say.
     */
    size_t bars;
    /**
     * One of them, fresh; nought without bars.
     */
    lamella_mass bar_fresh;
    /**
     * One of them, cured; nought without bars.
     */
    lamella_mass bar_cured;
} lamella_totals;

/**
 * One thing worth the maker's attention; it never stops a plan. The views live as long as the plan.
 */
typedef struct {
    /**
     * Stable code, such as "superfat.low".
     */
    lamella_str code;
    /**
     * JSON Pointer to what it is about in the recipe; empty for the batch.
     */
    lamella_str pointer;
    /**
     * What it is about, by name.
     */
    lamella_str place;
    /**
     * What is found, in one sentence.
     */
    lamella_str message;
    /**
     * The figure, with its unit.
     */
    lamella_str figure;
    /**
     * What it is held against, with its unit.
     */
    lamella_str limit;
    /**
     * What the limit rests on, such as "regulation" or "common-practice".
     */
    lamella_str basis;
    /**
     * The source, or what kind of practice it is.
     */
    lamella_str source;
    /**
     * What to do.
     */
    lamella_str advice;
} lamella_caution;

/**
 * A step of the work. The view lives for ever.
 */
typedef struct {
    /**
     * What is to be done, in the words of the plan/1 document: "add-lye", "pour", "wait". New ones may come.
     */
    lamella_str work;
    /**
     * Index of the jug that it is done to; LAMELLA_NONE when there is none.
     */
    size_t jug;
    /**
     * Index of the layer that it is about; LAMELLA_NONE when there is none.
     */
    size_t layer;
} lamella_step;

/**
 * A problem of a document. The views live as long as the report.
 */
typedef struct {
    /**
     * Stable code, such as "quantity.unit.missing".
     */
    lamella_str code;
    /**
     * JSON Pointer to the place in the document (RFC 6901); empty for the document as a whole.
     */
    lamella_str pointer;
    /**
     * What is wrong, in one sentence.
     */
    lamella_str message;
    /**
     * What to do about it.
     */
    lamella_str advice;
} lamella_problem;

/**
 * A line of the weigh list. The views live as long as the plan.
 */
typedef struct {
    /**
     * Id of the material, such as "olive-oil"; "pot" and "lye" for what a jug gets of these.
     */
    lamella_str id;
    /**
     * Its name.
     */
    lamella_str name;
    /**
     * JSON Pointer to the line of the recipe that asks for it; empty for what a jug gets of pot and lye.
     */
    lamella_str pointer;
    /**
     * In whole steps of its scale: what to weigh.
     */
    lamella_mass weighed;
    /**
     * At full precision.
     */
    lamella_mass ideal;
    /**
     * Index of its scale.
     */
    size_t scale;
    /**
     * Index of its jug; LAMELLA_NONE when it is not weighed into a jug.
     */
    size_t jug;
    /**
     * What it is weighed into.
     */
    lamella_vessel vessel;
    /**
     * What it is.
     */
    lamella_weigh_kind kind;
} lamella_weigh;

/**
 * A scale of the workshop. The view lives as long as the plan.
 */
typedef struct {
    /**
     * What the maker calls it.
     */
    lamella_str name;
    /**
     * Smallest difference that it shows.
     */
    lamella_mass step;
    /**
     * Most that it carries.
     */
    lamella_mass capacity;
} lamella_scale;

#ifdef __cplusplus
extern "C" {
#endif // __cplusplus

/**
 * Begins a batch of the recipe of a plan and sets `*out` to it: nothing has been done yet, and its plan is this one. Free
 * it with lamella_batch_free; the plan may be freed before it.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_batch_of(const lamella_plan *plan,
                                lamella_batch **out,
                                lamella_report **report);

/**
 * Reads the batch/1 document of `len` bytes at `text`, records its events again, and sets `*out` to the batch; free it
 * with lamella_batch_free. LAMELLA_PROBLEMS and `report` as for lamella_recipe_read; an event that cannot have happened is
 * a problem too.
 *
 * What the caller vouches for:
 * `text` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_batch_read(const char *text,
                                  size_t len,
                                  lamella_batch **out,
                                  lamella_report **report);

/**
 * Records what happened, and reckons the rest anew. `event` is one event of `len` bytes, as it stands in the list of a
 * batch/1 document: { "weighed": "naoh", "mass": "141.2 g" }. `out` may be NULL; otherwise `*out` is set to a changes/1
 * document that tells what it changed and by how much; free it with lamella_text_free.
 *
 * LAMELLA_PROBLEMS when it cannot have happened after what was recorded before; the batch stays as it was. Pointers of the
 * report are into the event.
 *
 * What the caller vouches for:
 * `event` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_batch_record(lamella_batch *batch,
                                    const char *event,
                                    size_t len,
                                    lamella_text **out,
                                    lamella_report **report);

/**
 * Takes the last event back. LAMELLA_INDEX when there is none.
 */
lamella_status lamella_batch_undo(lamella_batch *batch);

/**
 * How many events a batch has. Nought for NULL and for what is no batch.
 */
size_t lamella_batch_event_count(const lamella_batch *batch);

/**
 * Sets `*out` to the plan of what is left, as it is now: what was reported as it was, the rest as it follows. It does not
 * change with the batch; ask anew after an event. Free it with lamella_plan_free. Layers that were skipped are not in it.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_batch_plan(const lamella_batch *batch,
                                  lamella_plan **out);

/**
 * Sets `*out` to 1 when a layer is poured, else to 0. `layer` is its name, of `len` bytes.
 *
 * What the caller vouches for:
 * `layer` is readable for `len` bytes; `out` is writable.
 */
lamella_status lamella_batch_is_poured(const lamella_batch *batch, const char *layer, size_t len, int *out);

/**
 * Sets `*out` to the log as its batch/1 document: the recipe and the events. Reading it gives the same batch. Free it with
 * lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_batch_document(const lamella_batch *batch,
                                      lamella_text **out);

/**
 * Sets `*out` to what can be put right in the jugs that are not poured yet, as JSON: for each its superfat, the smallest
 * additions that bring it back, or why nothing does, and what is safe with it. Free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_batch_corrections(const lamella_batch *batch,
                                         lamella_text **out,
                                         lamella_report **report);

/**
 * Frees a batch. NULL is nothing; a batch that was freed already is LAMELLA_HANDLE, and no harm is done.
 */
lamella_status lamella_batch_free(lamella_batch *batch);

/**
 * Sets `*out` to the blend that a blend/1 document of `len` bytes at `request` asks for: `form` is LAMELLA_FORM_TEXT or
 * LAMELLA_FORM_JSON. Free it with lamella_text_free. `report` as for lamella_recipe_read; demands that cannot be met
 * together are a problem, "blend.conflict", that names them.
 *
 * What the caller vouches for:
 * `request` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_blend(const char *request,
                             size_t len,
                             uint32_t form,
                             lamella_text **out,
                             lamella_report **report);

/**
 * Sets `*out` to the fats of the same blend as they stand in a recipe/1 document: a list in JSON. Otherwise as
 * lamella_blend.
 *
 * What the caller vouches for:
 * As for lamella_blend.
 */
lamella_status lamella_blend_fats(const char *request,
                                  size_t len,
                                  lamella_text **out,
                                  lamella_report **report);

/**
 * Sets `*out` to the forecast of how warm lye, batter and block get, where and when. `setting` is a heat/1 document of
 * `len` bytes; with `len` nought the block stands as by default. `form` is LAMELLA_FORM_JSON, or LAMELLA_FORM_SVG for the
 * section at six times (degrees Celsius). It takes seconds. Free it with lamella_text_free; `report` as for
 * lamella_recipe_read, its pointers into `setting`.
 *
 * What the caller vouches for:
 * `setting` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_heat(const lamella_plan *plan,
                                 const char *setting,
                                 size_t len,
                                 uint32_t form,
                                 lamella_text **out,
                                 lamella_report **report);

/**
 * Sets `*out` to the cost sheet of a plan. `prices` is a prices/1 document of `len` bytes; `form` is LAMELLA_FORM_TEXT or
 * LAMELLA_FORM_MARKDOWN. Free it with lamella_text_free; `report` as for lamella_recipe_read.
 *
 * What the caller vouches for:
 * `prices` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_cost(const lamella_plan *plan,
                                 const char *prices,
                                 size_t len,
                                 uint32_t form,
                                 lamella_text **out,
                                 lamella_report **report);

/**
 * Sets `*out` to how bars dry: when they are ready, and what they will weigh. `weighings` is a weighings/1 document of
 * `len` bytes; `form` is LAMELLA_FORM_TEXT, LAMELLA_FORM_MARKDOWN, or LAMELLA_FORM_SVG for the curve of its bar `bar`,
 * counted from nought; the other forms take no notice of `bar`. Free it with lamella_text_free; `report` as for
 * lamella_recipe_read.
 *
 * LAMELLA_INDEX when there is no curve of such a bar.
 *
 * What the caller vouches for:
 * `weighings` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_cure(const char *weighings,
                            size_t len,
                            uint32_t form,
                            size_t bar,
                            lamella_text **out,
                            lamella_report **report);

/**
 * Sets `*out` to the page of a batch record. `record` is a record/1 document of `len` bytes; `plan` is the plan that it is
 * held against, or NULL; `form` is LAMELLA_FORM_TEXT or LAMELLA_FORM_MARKDOWN. Free it with lamella_text_free; `report` as
 * for lamella_recipe_read.
 *
 * What the caller vouches for:
 * `record` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_record(const char *record,
                              size_t len,
                              const lamella_plan *plan,
                              uint32_t form,
                              lamella_text **out,
                              lamella_report **report);

/**
 * Sets `*out` to what may have caused something that is seen after the cut, the likeliest first. `seen`, of `len` bytes, is
 * one of dull-throughout, dull-border, crack-on-top, ash, weeping, soft-centre, crumbling, dark-spots, specks; anything
 * else is LAMELLA_OPTION. `layer` is where it is seen, or LAMELLA_NONE for the bar. `form` is LAMELLA_FORM_TEXT,
 * LAMELLA_FORM_MARKDOWN or LAMELLA_FORM_JSON. Free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `seen` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_causes(const lamella_plan *plan,
                                   const char *seen,
                                   size_t len,
                                   size_t layer,
                                   uint32_t form,
                                   lamella_text **out,
                                   lamella_report **report);

/**
 * Writes how sure the superfat of a jug is, and so that of every layer poured from it, to `out`; `size` is sizeof *out.
 * LAMELLA_NONE for `jug` stands for all jugs together. The first call for a plan reckons, which takes as long as planning
 * or longer; the others look it up.
 *
 * LAMELLA_INDEX when there is no such jug; LAMELLA_RANGE when a figure passes what can be held.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_interval(const lamella_plan *plan,
                                     size_t jug,
                                     lamella_interval *out,
                                     size_t size);

/**
 * Sets `*out` to the certainty/1 document of a plan: the intervals, what is uncertain, and what contributes how much; free
 * it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_certainty(const lamella_plan *plan,
                                      lamella_text **out);

/**
 * Sets `*out` to what would make a recipe safe, as JSON: the smallest superfat, and the coarsest scale, with which no layer
 * can be lye-heavy. It plans the recipe many times over. Free it with lamella_text_free. `report` is set on
 * LAMELLA_INTERNAL only.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_recipe_advice(const lamella_recipe *recipe,
                                     lamella_text **out,
                                     lamella_report **report);

/**
 * How many handles and texts there are that nobody has freed, of all kinds and threads. Where a program is done with
 * this library it is nought; anything else is a leak. For tests.
 */
size_t lamella_live_handles(void);

/**
 * How many jugs a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_jug_count(const lamella_plan *plan);

/**
 * Writes a jug, counted from nought in the order of their first pour, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_jug(const lamella_plan *plan, size_t jug, lamella_jug *out, size_t size);

/**
 * Sets `*out` to the index of a layer that is poured from a jug: the `index`th of them, counted from nought in pour
 * order.
 *
 * LAMELLA_INDEX when there is no such jug, or it has fewer layers.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_jug_layer(const lamella_plan *plan,
                                      size_t jug,
                                      size_t index,
                                      size_t *out);

/**
 * How many layers a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_layer_count(const lamella_plan *plan);

/**
 * Writes a layer, counted from nought from the bottom, which is the order of pouring, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_layer(const lamella_plan *plan,
                                  size_t layer,
                                  lamella_layer *out,
                                  size_t size);

/**
 * Writes the portion of a layer, with the readings of its jug, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is no such layer.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_portion(const lamella_plan *plan,
                                    size_t layer,
                                    lamella_portion *out,
                                    size_t size);

/**
 * Writes a height of a layer, counted from nought, to `out`; `size` is sizeof *out. A layer that does not fit into a
 * mould has none there.
 *
 * LAMELLA_INDEX when there is no such layer, or no such height.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_height(const lamella_plan *plan,
                                   size_t layer,
                                   size_t index,
                                   lamella_height *out,
                                   size_t size);

/**
 * Answers a stream of recipe/1 documents in JSON Lines: one document a line, one answer a line, in the same order. A line
 * with problems is answered with its problems/1 document, on one line, and harms no other; so is an empty line, and one
 * that is longer than the options allow. The last line need not end in a newline.
 *
 * `answer` is LAMELLA_ANSWER_PLAN or LAMELLA_ANSWER_CHECK. `threads` is how many threads plan: 1 for the calling thread
 * alone, 0 for as many as the machine has processors, at most 1024. `source` and `sink` are called in turn, and only on
 * the calling thread; `context` is handed to both. At most some hundred lines a thread are held at a time, however many there are.
 * `options` may be NULL for the defaults; their limits are for each line.
 *
 * LAMELLA_STOPPED when a callback stops it, with lines that it has not answered; LAMELLA_LENGTH when `source` returns more than `capacity`.
 *
 * What the caller vouches for:
 * `source` and `sink` are functions of these kinds that can be called with `context` until the call returns; `options`
 * is readable for as many bytes as it says.
 */
lamella_status lamella_lines_stream(lamella_source source,
                                    lamella_sink sink,
                                    void *context,
                                    const lamella_options *options,
                                    uint32_t answer,
                                    size_t threads);

/**
 * The same for lines that are all in memory: `len` bytes at `lines`. Sets `*out` to all the answers; free it with
 * lamella_text_free. For an engine that hands out lines in portions.
 *
 * What the caller vouches for:
 * `lines` is readable for `len` bytes, `options` for as many as it says; `out` is writable.
 */
lamella_status lamella_lines_answer(const char *lines,
                                    size_t len,
                                    const lamella_options *options,
                                    uint32_t answer,
                                    size_t threads,
                                    lamella_text **out);

/**
 * Sets `*out` to the list of ingredients of a layer, or with LAMELLA_NONE of the whole bar: `market` is one of
 * LAMELLA_MARKET_..., `style` one of LAMELLA_STYLE_..., `form` LAMELLA_FORM_TEXT for the line of the label or
 * LAMELLA_FORM_JSON. Free it with lamella_text_free. LAMELLA_PROBLEMS when a material has no label name.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_ingredients(const lamella_plan *plan,
                                        size_t layer,
                                        uint32_t market,
                                        uint32_t style,
                                        uint32_t form,
                                        lamella_text **out,
                                        lamella_report **report);

/**
 * Sets `*out` to the copy of a label: what stands on it, what is missing, what to know. `facts` may be NULL for none.
 * `assessment` is an assessment/1 document of `len` bytes, nought for none. `form` is LAMELLA_FORM_TEXT,
 * LAMELLA_FORM_MARKDOWN or LAMELLA_FORM_JSON. Free it with lamella_text_free; `report` as for lamella_recipe_read.
 *
 * What the caller vouches for:
 * `facts` is readable for as many bytes as it says, and so are its texts; `assessment` for `len` bytes; `out` and `report`
 * are writable unless NULL.
 */
lamella_status lamella_plan_label(const lamella_plan *plan,
                                  const lamella_label_facts *facts,
                                  const char *assessment,
                                  size_t len,
                                  uint32_t form,
                                  lamella_text **out,
                                  lamella_report **report);

/**
 * Sets `*out` to whether an assessment covers a plan, and if not, why and by how much, as JSON. `assessment` is an
 * assessment/1 document of `len` bytes, nought for none. Free it with lamella_text_free; `report` as for
 * lamella_recipe_read.
 *
 * What the caller vouches for:
 * `assessment` is readable for `len` bytes; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_verdict(const lamella_plan *plan,
                                    const char *assessment,
                                    size_t len,
                                    lamella_text **out,
                                    lamella_report **report);

/**
 * Sets `*out` to the composition for an assessor, as charged and as formed: `form` is LAMELLA_FORM_TEXT,
 * LAMELLA_FORM_MARKDOWN, LAMELLA_FORM_CSV, or LAMELLA_FORM_JSON for a dossier/1 document. Free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_dossier(const lamella_plan *plan,
                                    uint32_t form,
                                    lamella_text **out,
                                    lamella_report **report);

/**
 * Sets `*out` to how much scent is in a layer, or with LAMELLA_NONE in the whole bar, against its certificates, and which
 * allergens pass the threshold, as JSON. `leave_on` is 0 for bars that are rinsed off, which soap is, else 1. Free it with
 * lamella_text_free.
 *
 * LAMELLA_INDEX when there is no such layer.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_scents(const lamella_plan *plan,
                                   size_t layer,
                                   uint32_t leave_on,
                                   lamella_text **out,
                                   lamella_report **report);

/**
 * The double nearest to one of these numbers in its base unit (g, mm, mL, or 1 for a share). For drawing and for display;
 * it is not exact, and no function takes one.
 */
double lamella_approximate(int64_t value);

/**
 * Writes one of these numbers in its base unit to `buffer`, with exactly `decimals` places (at most 12), rounded half to
 * even, and a NUL: "41.1" for 41 100 000 000 000 and 1. 32 bytes always do; LAMELLA_BUFFER when `size` does not, and
 * LAMELLA_OPTION for more decimals.
 *
 * What the caller vouches for:
 * `buffer` is writable for `size` bytes.
 */
lamella_status lamella_decimal(int64_t value,
                               uint32_t decimals,
                               char *buffer,
                               size_t size);

/**
 * The same for a share as per cent, without the sign: "5.0" for 50 000 000 000 and 1.
 *
 * What the caller vouches for:
 * `buffer` is writable for `size` bytes.
 */
lamella_status lamella_percent(lamella_share value, uint32_t decimals, char *buffer, size_t size);

/**
 * Writes the defaults to `options`; `size` is sizeof *options.
 *
 * What the caller vouches for:
 * `options` is writable for `size` bytes.
 */
lamella_status lamella_options_init(lamella_options *options, size_t size);

/**
 * Plans a batch of a recipe and sets `*out` to the plan; free it with lamella_plan_free. The recipe may be freed before
 * it.
 *
 * LAMELLA_PROBLEMS when the recipe cannot be planned: then `*report`, unless `report` is NULL, is set to what keeps it
 * from that; free it with lamella_report_free.
 *
 * What the caller vouches for:
 * `out` and `report` are writable unless NULL.
 */
lamella_status lamella_plan_of(const lamella_recipe *recipe,
                               lamella_plan **out,
                               lamella_report **report);

/**
 * Sets `*out` to the plan/1 document of a plan; free it with lamella_text_free. The same recipe gives the same bytes on
 * every machine.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_document(const lamella_plan *plan,
                                     lamella_text **out);

/**
 * Frees a plan. NULL is nothing; a plan that was freed already is LAMELLA_HANDLE, and no harm is done.
 */
lamella_status lamella_plan_free(lamella_plan *plan);

/**
 * Writes what the batch is as a whole to `out`; `size` is sizeof *out.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_totals(const lamella_plan *plan, lamella_totals *out, size_t size);

/**
 * Plans a batch in one call: reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and writes
 * its plan/1 document.
 *
 * `text` may be NULL only when `len` is nought. `out_plan` must not be NULL; `*out_plan` is set only on LAMELLA_OK.
 * `out_problems` may be NULL; `*out_problems` is set only on LAMELLA_PROBLEMS and LAMELLA_INTERNAL, to a problems/1
 * document that names every problem with its place in the recipe and what to do about it. Free what was set with
 * lamella_text_free.
 *
 * The same bytes give the same bytes on every machine. Any number of threads may call it at once.
 *
 * What the caller vouches for:
 * `text` is readable for `len` bytes; `out_plan` and `out_problems` are writable unless NULL.
 */
lamella_status lamella_plan_json(const char *text,
                                 size_t len,
                                 lamella_text **out_plan,
                                 lamella_text **out_problems);

/**
 * Reads the recipe/1 document of `len` bytes at `text`, which need not end in NUL, and sets `*out` to the recipe; free
 * it with lamella_recipe_free.
 *
 * `text` may be NULL only when `len` is nought. `options` may be NULL for the defaults. LAMELLA_PROBLEMS when the
 * document has problems: then `*report`, unless `report` is NULL, is set to all of them at once; free it with
 * lamella_report_free.
 *
 * What the caller vouches for:
 * `text` is readable for `len` bytes, `options` for as many as it says; `out` and `report` are writable unless NULL.
 */
lamella_status lamella_recipe_read(const char *text,
                                   size_t len,
                                   const lamella_options *options,
                                   lamella_recipe **out,
                                   lamella_report **report);

/**
 * Sets `*out` to the recipe as canonical text: a recipe/1 document with its fields in the order of the format, defaults
 * left out, quantities in base units. Reading it gives the same recipe back. Free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_recipe_document(const lamella_recipe *recipe,
                                       lamella_text **out);

/**
 * Frees a recipe. NULL is nothing; a recipe that was freed already is LAMELLA_HANDLE, and no harm is done.
 */
lamella_status lamella_recipe_free(lamella_recipe *recipe);

/**
 * How many cautions a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_caution_count(const lamella_plan *plan);

/**
 * Writes a caution, counted from nought, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_caution(const lamella_plan *plan,
                                    size_t index,
                                    lamella_caution *out,
                                    size_t size);

/**
 * How many steps the work has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_step_count(const lamella_plan *plan);

/**
 * Writes a step of the work, counted from nought, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_step(const lamella_plan *plan, size_t index, lamella_step *out, size_t size);

/**
 * How many problems there are. Nought for NULL and for what is no report.
 */
size_t lamella_report_count(const lamella_report *report);

/**
 * Writes the problem of an index, counted from nought in the order of the document, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_report_problem(const lamella_report *report,
                                      size_t index,
                                      lamella_problem *out,
                                      size_t size);

/**
 * Sets `*out` to the problems/1 document of a report; free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_report_document(const lamella_report *report, lamella_text **out);

/**
 * Sets `*out` to a report as a compiler prints it, each problem with its line of the document; free it with
 * lamella_text_free. `document` is the one that the report is about, of `len` bytes; `name` is what it is called, of
 * `name_len` bytes.
 *
 * What the caller vouches for:
 * `document` and `name` are readable for their lengths; `out` is writable.
 */
lamella_status lamella_report_text(const lamella_report *report,
                                   const char *document,
                                   size_t len,
                                   const char *name,
                                   size_t name_len,
                                   lamella_text **out);

/**
 * Frees a report. NULL is nothing; a report that was freed already is LAMELLA_HANDLE, and no harm is done.
 */
lamella_status lamella_report_free(lamella_report *report);

/**
 * Sets `*out` to the sheet for the bench as plain text, at most 96 columns; free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_text(const lamella_plan *plan, lamella_text **out);

/**
 * Sets `*out` to the same sheet as Markdown (CommonMark with tables); free it with lamella_text_free.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_markdown(const lamella_plan *plan, lamella_text **out);

/**
 * How many moulds a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_mould_count(const lamella_plan *plan);

/**
 * Sets `*out` to the cross-section of the bar in a mould, counted from nought, as SVG; free it with lamella_text_free.
 *
 * LAMELLA_INDEX when there is no such mould.
 *
 * What the caller vouches for:
 * `out` is writable.
 */
lamella_status lamella_plan_svg(const lamella_plan *plan,
                                size_t mould,
                                lamella_text **out);

/**
 * What a status means, in English, for messages. Takes any number; an unknown one is called an unknown status. The
 * text ends in NUL, is never NULL, lives for ever and must not be freed.
 */
const char *lamella_status_text(uint32_t status);

/**
 * The bytes of a text. They live as long as the text. NULL for NULL and for what is no text.
 */
const char *lamella_text_data(const lamella_text *text);

/**
 * How many bytes a text has, the closing NUL not counted. Nought for NULL and for what is no text.
 */
size_t lamella_text_len(const lamella_text *text);

/**
 * Frees a text. NULL is nothing; a text that was freed already is LAMELLA_HANDLE, and no harm is done.
 */
lamella_status lamella_text_free(lamella_text *text);

/**
 * The version of this library, such as "0.1.0". The text ends in NUL, lives for ever and must not be freed.
 */
const char *lamella_version(void);

/**
 * The version of its ABI; a program built against another one must not go on.
 */
uint32_t lamella_abi_version(void);

/**
 * How many lines the weigh list of a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_weigh_count(const lamella_plan *plan);

/**
 * Writes a line of the weigh list, counted from nought, to `out`; `size` is sizeof *out. First comes the lye, then the
 * pot, then jug by jug what goes into it, each in the order of the work.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_weigh(const lamella_plan *plan,
                                  size_t index,
                                  lamella_weigh *out,
                                  size_t size);

/**
 * How many scales a plan has. Nought for NULL and for what is no plan.
 */
size_t lamella_plan_scale_count(const lamella_plan *plan);

/**
 * Writes a scale, counted from nought, the finest first, to `out`; `size` is sizeof *out.
 *
 * LAMELLA_INDEX when there is none.
 *
 * What the caller vouches for:
 * `out` is writable for `size` bytes.
 */
lamella_status lamella_plan_scale(const lamella_plan *plan, size_t index, lamella_scale *out, size_t size);

#ifdef __cplusplus
}  // extern "C"
#endif  // __cplusplus

#endif  /* LAMELLA_H */
