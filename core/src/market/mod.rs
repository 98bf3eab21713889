//! From the bar to its sale: what stands on the label, what a scent's certificate allows, what an assessment covers, what an
//! assessor asks for, and how heavy a bar may be said to be.
//!
//! In: a [`Plan`](crate::Plan) and the [`Recipe`](crate::recipe::Recipe) that it was made of. Out: figures with the rule
//! that each rests on. All arithmetic is exact. Nothing here is legal advice: each rule names its article, and says so
//! where that was not read.
