//! What is said of how the book is kept, and what a fault of the storage leads to: from then on nothing is called saved until all that is
//! known was written anew and read back, and a copy is asked for on every screen until one was made.

use super::{Keeping, Phase, Store, use_store};
use crate::late;
use crate::live::{Worked, of_the_page, worked};
use crate::shell::fault::Fault;
use crate::shell::{clock, doubt, lock, scope};
use leptos::task::spawn_local;
use std::cell::OnceCell;

/// How far what is stored is trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trust {
    /// As ever.
    Whole,
    /// The storage has failed, and nothing was written anew yet.
    Failed,
    /// It had failed, all was written anew, and no copy has left since.
    Anew,
    /// The same, and a copy has left.
    Copied,
}

/// What the trader is told of how the book is kept: the one place that all lines about it are taken from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Sample data.
    Sample,
    /// Every save is on this device.
    Kept,
    /// The same, but no copy left for long, as a sentence.
    Due(String),
    /// It is on this device again after the storage had failed, and no copy has left since.
    Anew,
    /// The storage has failed.
    Failed,
    /// Nothing is kept.
    Nowhere,
    /// It is open for reading only.
    Reading,
}

impl Standing {
    /// Whether a copy is asked for here and now.
    pub const fn wants_copy(&self) -> bool {
        matches!(
            self,
            Self::Anew | Self::Failed | Self::Nowhere | Self::Reading
        )
    }

    /// What is wrong, in few words; empty while nothing is.
    pub fn trouble(&self) -> &str {
        match self {
            Self::Sample | Self::Kept => "",
            Self::Due(due) => due,
            Self::Anew => "Saved here again",
            Self::Failed => "Not kept safely here",
            Self::Nowhere => "Nothing is kept here",
            Self::Reading => "Open for reading only",
        }
    }

    /// The same for the foot of the tabs.
    pub fn sentence(&self) -> &'static str {
        match self {
            Self::Sample => "Sample data",
            Self::Kept | Self::Due(_) => "Every save is on this device",
            Self::Anew => "Every save is on this device again: save a copy",
            Self::Failed => "The storage failed: save a copy",
            Self::Nowhere => "Nothing is kept on this device",
            Self::Reading => "Open for reading only",
        }
    }
}

thread_local! {
    static STANDING: OnceCell<Worked<Standing>> = const { OnceCell::new() };
}

/// How long until all is written anew by itself, after it could not be.
pub(super) const AGAIN_MS: u32 = 8_000;

impl Store {
    /// How the book is kept.
    pub fn standing(self) -> Worked<Standing> {
        let now = move || match (self.keeping.get(), self.trust.get()) {
            _ if scope::is_sample() => Standing::Sample,
            (Keeping::Memory, _) => Standing::Nowhere,
            (Keeping::Reading, _) => Standing::Reading,
            (Keeping::Disk, Trust::Failed) => Standing::Failed,
            (Keeping::Disk, Trust::Anew) => Standing::Anew,
            (Keeping::Disk, Trust::Whole | Trust::Copied) => {
                let due = self.copy_due.get();
                if due.is_empty() {
                    Standing::Kept
                } else {
                    Standing::Due(due)
                }
            }
        };
        STANDING.with(|standing| *standing.get_or_init(|| of_the_page(|| worked(now))))
    }

    /// Hears of faults from now on.
    pub(super) fn hear_of_faults() {
        doubt::hear(|| use_store().is_in_doubt());
    }

    /// The storage has failed: said at once, and mended soon.
    fn is_in_doubt(self) {
        // An attempt to mend it that fails is heard of too: the next one waits.
        if self.trust.get_untracked() != Trust::Failed {
            self.trust.set(Trust::Failed);
            self.mend_soon(0);
        }
    }

    /// Writes all anew by itself after a while, and again until it is done.
    pub(super) fn mend_soon(self, pause: u32) {
        if self.inner.mending.replace(true) {
            return;
        }
        spawn_local(async move {
            clock::pause(pause).await;
            self.inner.mending.set(false);
            let is_open = self.phase.with_untracked(|phase| *phase == Phase::Ready);
            if is_open && let Err(fault) = self.made_safe().await {
                leptos::logging::warn!("nothing could be written anew yet: {fault}");
                self.mend_soon(AGAIN_MS);
            }
        });
    }

    /// Sees to it that what is stored can be trusted. Nothing to do as long as the storage never failed.
    pub(super) async fn made_safe(self) -> Result<(), Fault> {
        if !doubt::is_raised() {
            return Ok(());
        }
        let _one = lock::alone("anew").await;
        if !doubt::is_raised() {
            return Ok(());
        }
        let Some(further) = late::fetched().await else {
            let why = "a part of the app could not be fetched";
            return Err(Fault::Aborted(why.to_owned()));
        };
        (further.anew)(self).await
    }
}
