//! A new code for this device, when a file shows that another one goes by the same: one of them was set up from a copy of the other.

use crate::shell::clock;
use crate::shell::db::{Db, META};
use crate::shell::fault::Fault;
use crate::shell::lock;
use crate::shell::save::{self, Head};
use haulwren_core::book::State;
use haulwren_core::id::DeviceCode;
use haulwren_core::json;
use std::cell::RefCell;

/// Takes one. What was said under the old code stays, as of another device. The book in memory, of every tab, is to be read anew.
pub async fn take_new_code(db: &Db, book: &RefCell<State>) -> Result<(), Fault> {
    let _alone = lock::book_alone().await;
    save::catch_up(db, book).await?;
    let code = DeviceCode::from_chance(clock::chance());
    // Nothing was said under it, and no stamp of it may fall behind what was.
    let head = Head {
        seq: 0,
        stamp: book.borrow().clock.last(code),
    };
    let transaction = db.strict(&[META])?;
    transaction.put(META, &[("k", "device"), ("v", &json::write(&code))])?;
    transaction.put(META, &[("k", "head"), ("v", &head.to_json())])?;
    transaction.complete().await
}
