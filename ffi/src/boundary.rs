//! The wall that no panic crosses.

use std::any::Any;
use std::panic::{AssertUnwindSafe, catch_unwind};

use lamella::{Failure, Problem};

use crate::handle;
use crate::pointer::Out;
use crate::report::lamella_report;
use crate::status::lamella_status;

/// Why a body ends early.
#[derive(Debug)]
pub(crate) enum Stop {
    /// With a status alone.
    Status(lamella_status),
    /// With problems of a document.
    Problems(Failure),
}

impl From<lamella_status> for Stop {
    fn from(status: lamella_status) -> Self {
        Self::Status(status)
    }
}

impl From<Failure> for Stop {
    fn from(failure: Failure) -> Self {
        Self::Problems(failure)
    }
}

impl From<Vec<Problem>> for Stop {
    fn from(problems: Vec<Problem>) -> Self {
        Self::Problems(problems.into())
    }
}

impl Stop {
    /// What the caller is told, and what went wrong in the document or in this library.
    pub(crate) fn told(self) -> (lamella_status, Option<Failure>) {
        match self {
            Self::Status(status) => (status, None),
            Self::Problems(failure) => (lamella_status::LAMELLA_PROBLEMS, Some(failure)),
        }
    }
}

/// Runs the body of a function. A panic in it would be a mistake of this library; the caller learns of it as a status.
///
/// Nothing that a body touches outlives a panic in it: the results are locals until they are handed over, so that
/// unwinding leaves nothing half written.
pub(crate) fn boundary(body: impl FnOnce() -> Result<(), lamella_status>) -> lamella_status {
    told(|| body().map_err(Stop::Status)).0
}

/// As [`boundary`], for a body that reads a document: its problems, or the message of a panic, become a report.
pub(crate) fn reported(
    report: Option<Out<*mut lamella_report>>,
    body: impl FnOnce() -> Result<(), Stop>,
) -> lamella_status {
    let (status, failure) = told(body);
    if let (Some(report), Some(failure)) = (report, failure) {
        let made = catch_unwind(AssertUnwindSafe(|| handle::new::<lamella_report>(failure)));
        if let Ok(Ok(handle)) = made {
            report.put(handle);
        }
    }
    status
}

/// What a body ends with, whichever way.
pub(crate) fn told(body: impl FnOnce() -> Result<(), Stop>) -> (lamella_status, Option<Failure>) {
    match catch_unwind(AssertUnwindSafe(body)) {
        Ok(Ok(())) => (lamella_status::LAMELLA_OK, None),
        Ok(Err(stop)) => stop.told(),
        Err(panic) => (lamella_status::LAMELLA_INTERNAL, Some(Failure::internal(message(&*panic)))),
    }
}

/// What a panic says.
pub(crate) fn message(panic: &(dyn Any + Send)) -> &str {
    let text = panic.downcast_ref::<String>().map(String::as_str);
    text.or_else(|| panic.downcast_ref::<&str>().copied()).unwrap_or("a panic without a message")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pointer;

    #[test]
    fn a_panic_is_a_status() {
        assert_eq!(boundary(|| panic!("on purpose")), lamella_status::LAMELLA_INTERNAL);
    }

    #[test]
    fn a_panic_is_reported_with_its_message() {
        type Body = fn() -> Result<(), Stop>;
        let bodies: [(Body, &str); 3] = [
            (|| panic!("on purpose"), "on purpose"),
            (|| panic!("number {}", 7), "number 7"),
            (|| std::panic::panic_any(7), "without a message"),
        ];
        for (body, wanted) in bodies {
            let mut report = std::ptr::null_mut();
            // SAFETY: `report` outlives the call.
            let slot = unsafe { pointer::wanted(&raw mut report) };
            assert_eq!(reported(slot, body), lamella_status::LAMELLA_INTERNAL);
            let failure = handle::get::<lamella_report>(report).unwrap();
            assert_eq!(failure.problems()[0].code, "library.internal");
            assert!(failure.problems()[0].message.contains(wanted));
            assert_eq!(handle::free(report), lamella_status::LAMELLA_OK);
        }
    }
}
