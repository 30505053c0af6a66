//! Questions whose answers come late, from the storage: by then another may have been asked.

use std::cell::Cell;
use std::rc::Rc;

/// The questions of one place on the page. Only the answer to the last one counts.
#[derive(Clone, Default)]
pub struct Questions(Rc<Cell<u32>>);

impl Questions {
    /// Asks anew. What it gives says, once the answer is there, whether it is still wanted.
    pub fn ask(&self) -> impl Fn() -> bool + 'static {
        let (asked, number) = (self.0.clone(), self.0.get().wrapping_add(1));
        asked.set(number);
        move || asked.get() == number
    }
}
