//! The table of what a caller holds.
//!
//! A handle is a number in the guise of a pointer: the key of an entry here. So a handle that was freed, is of another
//! kind, or never was one is an error and not a crash, and no handle is ever used again for something else.

use std::any::Any;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, PoisonError, RwLock};

use crate::boundary::boundary;
use crate::status::lamella_status;

/// An entry, whatever its kind.
type Entry = Arc<dyn Any + Send + Sync>;
/// A part of the table; threads that work on different handles seldom meet in one.
type Shard = RwLock<BTreeMap<usize, Entry>>;

const SHARDS: usize = 16;
static TABLE: [Shard; SHARDS] = [const { RwLock::new(BTreeMap::new()) }; SHARDS];
/// The next key. None is given twice.
static NEXT: AtomicUsize = AtomicUsize::new(1);

/// A kind of handle: the opaque type that C sees, and what stands behind it.
pub(crate) trait Handle {
    /// What stands behind it. Threads share it, so that it cannot be changed but behind a lock of its own.
    type Inner: Any + Send + Sync;
}

fn shard(key: usize) -> Option<&'static Shard> {
    TABLE.get(key.checked_rem(SHARDS)?)
}

/// A new handle: the caller owns it from now on.
pub(crate) fn new<H: Handle>(inner: H::Inner) -> Result<*mut H, lamella_status> {
    let next = |key: usize| key.checked_add(1);
    let key = NEXT.fetch_update(Ordering::Relaxed, Ordering::Relaxed, next);
    let (Ok(key), Some(Some(shard))) = (key, key.ok().map(shard)) else {
        return Err(lamella_status::LAMELLA_INTERNAL);
    };
    shard.write().unwrap_or_else(PoisonError::into_inner).insert(key, Arc::new(inner));
    Ok(std::ptr::without_provenance_mut(key))
}

/// What stands behind a handle. It stays while it is in use, even when another thread frees the handle meanwhile.
pub(crate) fn get<H: Handle>(handle: *const H) -> Result<Arc<H::Inner>, lamella_status> {
    if handle.is_null() {
        return Err(lamella_status::LAMELLA_NULL_ARGUMENT);
    }
    let key = handle.addr();
    let table = shard(key).map(|shard| shard.read().unwrap_or_else(PoisonError::into_inner));
    let entry = table.as_ref().and_then(|table| table.get(&key)).cloned();
    drop(table);
    entry.and_then(|entry| entry.downcast().ok()).ok_or(lamella_status::LAMELLA_HANDLE)
}

/// Frees a handle of this kind; NULL is nothing.
pub(crate) fn free<H: Handle>(handle: *mut H) -> lamella_status {
    boundary(|| {
        if handle.is_null() {
            return Ok(());
        }
        get::<H>(handle)?;
        let key = handle.addr();
        let shard = shard(key).ok_or(lamella_status::LAMELLA_HANDLE)?;
        // The lock is gone before the entry is, which may take a while.
        let entry = shard.write().unwrap_or_else(PoisonError::into_inner).remove(&key);
        entry.map(drop).ok_or(lamella_status::LAMELLA_HANDLE)
    })
}

/// How many handles and texts there are that nobody has freed, of all kinds and threads. Where a program is done with
/// this library it is nought; anything else is a leak. For tests.
#[unsafe(no_mangle)]
pub extern "C" fn lamella_live_handles() -> usize {
    let len = |shard: &Shard| shard.read().unwrap_or_else(PoisonError::into_inner).len();
    TABLE.iter().map(len).fold(0, usize::saturating_add)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct One;
    impl Handle for One {
        type Inner = String;
    }
    struct Other;
    impl Handle for Other {
        type Inner = u32;
    }

    #[test]
    fn a_handle_is_what_it_was_made_as_until_it_is_freed() {
        let one = new::<One>("one".to_owned()).unwrap();
        let other = new::<Other>(2).unwrap();
        assert_eq!(*get::<One>(one).unwrap(), "one");
        assert_eq!(get::<One>(other.cast()), Err(lamella_status::LAMELLA_HANDLE));
        assert_eq!(free::<Other>(one.cast()), lamella_status::LAMELLA_HANDLE);
        let held = get::<One>(one).unwrap();
        assert_eq!(free::<One>(one), lamella_status::LAMELLA_OK);
        assert_eq!(*held, "one");
        assert_eq!(get::<One>(one), Err(lamella_status::LAMELLA_HANDLE));
        assert_eq!(free::<One>(one), lamella_status::LAMELLA_HANDLE);
        assert_eq!(free::<Other>(other), lamella_status::LAMELLA_OK);
    }

    #[test]
    fn null_and_nonsense_are_errors() {
        assert_eq!(get::<One>(std::ptr::null()), Err(lamella_status::LAMELLA_NULL_ARGUMENT));
        assert_eq!(free::<One>(std::ptr::null_mut()), lamella_status::LAMELLA_OK);
        for key in [usize::MAX, usize::MAX - 16, 1 << 20] {
            let nonsense = std::ptr::without_provenance_mut(key);
            assert_eq!(get::<One>(nonsense), Err(lamella_status::LAMELLA_HANDLE));
            assert_eq!(free::<One>(nonsense), lamella_status::LAMELLA_HANDLE);
        }
    }

    #[test]
    fn threads_make_and_free_at_once() {
        std::thread::scope(|scope| {
            for thread in 0..4 {
                scope.spawn(move || {
                    for turn in 0..200_u32 {
                        let handle = new::<Other>(turn).unwrap();
                        assert_eq!(*get::<Other>(handle).unwrap(), turn, "{thread}");
                        assert_eq!(free::<Other>(handle), lamella_status::LAMELLA_OK);
                    }
                });
            }
        });
    }
}
