//! The C ABI of Lamella: `include/lamella.h` is generated from this crate, and its comments are the manual of the C user.
//!
//! In: bytes of documents. Out: a status, handles, texts and plain structs. Nothing is computed here; `pointer` holds the
//! casts, `handle` the table of what a caller holds, `boundary` the wall that no panic crosses, and the other files one
//! function after the other.
#![expect(
    unsafe_code,
    reason = "a C caller hands over raw pointers; each block names the duty of the caller"
)]
#![expect(non_camel_case_types, reason = "a type is called here as it is called in the header")]

mod batch;
mod blend;
mod books;
mod boundary;
mod certainty;
mod form;
mod handle;
mod jug;
mod layer;
mod lines;
mod market;
mod number;
mod options;
mod plan;
mod pointer;
mod recipe;
mod remark;
mod report;
mod sheet;
mod status;
mod stream;
mod text;
mod version;
mod weigh;

pub use batch::{
    lamella_batch, lamella_batch_corrections, lamella_batch_document, lamella_batch_event_count,
    lamella_batch_free, lamella_batch_is_poured, lamella_batch_of, lamella_batch_plan, lamella_batch_read,
    lamella_batch_record, lamella_batch_undo,
};
pub use blend::{lamella_blend, lamella_blend_fats};
pub use books::{lamella_cure, lamella_plan_causes, lamella_plan_cost, lamella_plan_heat, lamella_record};
pub use certainty::{
    lamella_interval, lamella_plan_certainty, lamella_plan_interval, lamella_recipe_advice, lamella_verdict,
};
pub use form::{
    LAMELLA_FORM_CSV, LAMELLA_FORM_JSON, LAMELLA_FORM_MARKDOWN, LAMELLA_FORM_SVG, LAMELLA_FORM_TEXT,
};
pub use handle::lamella_live_handles;
pub use jug::{lamella_jug, lamella_plan_jug, lamella_plan_jug_count, lamella_plan_jug_layer};
pub use layer::{
    lamella_height, lamella_layer, lamella_plan_height, lamella_plan_layer, lamella_plan_layer_count,
    lamella_plan_portion, lamella_portion,
};
pub use lines::{
    LAMELLA_ANSWER_CHECK, LAMELLA_ANSWER_PLAN, lamella_lines_answer, lamella_lines_stream, lamella_sink,
    lamella_source,
};
pub use market::{
    LAMELLA_MARKET_EUROPEAN_UNION, LAMELLA_MARKET_GREAT_BRITAIN, LAMELLA_MARKET_UNITED_STATES,
    LAMELLA_STYLE_AS_CHARGED, LAMELLA_STYLE_AS_FORMED, lamella_label_facts, lamella_plan_dossier,
    lamella_plan_ingredients, lamella_plan_label, lamella_plan_scents, lamella_plan_verdict,
};
pub use number::{
    lamella_approximate, lamella_decimal, lamella_length, lamella_mass, lamella_percent, lamella_share,
    lamella_volume,
};
pub use options::{lamella_options, lamella_options_init};
pub use plan::{
    lamella_plan, lamella_plan_document, lamella_plan_free, lamella_plan_json, lamella_plan_of,
    lamella_plan_totals, lamella_totals,
};
pub use recipe::{lamella_recipe, lamella_recipe_document, lamella_recipe_free, lamella_recipe_read};
pub use remark::{
    lamella_caution, lamella_plan_caution, lamella_plan_caution_count, lamella_plan_step,
    lamella_plan_step_count, lamella_step,
};
pub use report::{
    lamella_problem, lamella_report, lamella_report_count, lamella_report_document, lamella_report_free,
    lamella_report_problem, lamella_report_text,
};
pub use sheet::{lamella_plan_markdown, lamella_plan_mould_count, lamella_plan_svg, lamella_plan_text};
pub use status::{lamella_status, lamella_status_text};
pub use text::{lamella_str, lamella_text, lamella_text_data, lamella_text_free, lamella_text_len};
pub use version::{LAMELLA_ABI_VERSION, lamella_abi_version, lamella_version};
pub use weigh::{
    lamella_plan_scale, lamella_plan_scale_count, lamella_plan_weigh, lamella_plan_weigh_count,
    lamella_scale, lamella_vessel, lamella_weigh, lamella_weigh_kind,
};
