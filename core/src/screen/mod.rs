//! A plan as a screen works with it: the bar as outlines, an edge that is dragged, the work one thing at a time, and where
//! a figure comes from.
//!
//! In: a [`Plan`](crate::Plan) and the [`Recipe`](crate::recipe::Recipe) it was made of. Out: figures and words, so that
//! what draws them reckons nothing. Depends on the plan and the sheet's outlines; on no other reader.

mod edge;
mod explain;
mod picture;
mod shares;
mod task;

pub use edge::{Dragged, drag};
pub use explain::{Explanation, Input, explain};
pub use picture::{Picture, PictureLayer, picture};
pub use shares::{make_room, rest, shares_of};
pub use task::{Due, Task, Weigh, tasks, tasks_in};
