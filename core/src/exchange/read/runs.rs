//! Nothing may be missing: the numbers of each device run on from what is known here, and what a change rests on is there.

use super::{Line, ReadError};
use crate::change::{Key, Vector};

/// How far the file goes, and how far it reaches back.
#[derive(Debug, Default)]
pub(super) struct Runs {
    /// The last number of each device in the file.
    last: Vector,
    /// The highest numbers that new changes rest on.
    needs: Vector,
}

impl Runs {
    /// Takes the next change of a device. It has to follow the one before it in the file, and the first one what is known here.
    pub(super) fn follow(&mut self, ours: &Vector, key: Key, line: usize) -> Result<(), ReadError> {
        let Key { device, seq } = key;
        let (last, ours) = (self.last.of(device), ours.of(device));
        if seq <= last {
            return Err(ReadError::Again { line, device, seq });
        }
        let after = seq - 1;
        if last == 0 && ours < after {
            return Err(ReadError::BeginsLater {
                line,
                device,
                after,
                ours,
            });
        }
        if last > 0 && last < after {
            let (after, next) = (last, seq);
            return Err(ReadError::Hole {
                line,
                device,
                after,
                next,
            });
        }
        self.last.note(key);
        Ok(())
    }

    /// Takes note of what a new change rests on.
    pub(super) fn need(&mut self, seen: &Vector) {
        seen.iter().for_each(|seen| self.needs.note(seen));
    }

    /// Whether all is there that the new changes rest on, once the file is read.
    pub(super) fn rest(&self, ours: &Vector, new: &[Line]) -> Result<(), ReadError> {
        for needed in self.needs.iter() {
            let (device, needs) = (needed.device, needed.seq);
            let have = ours.of(device).max(self.last.of(device));
            if needs > have {
                let rests = |line: &&Line| line.change().seen.of(device) > have;
                let line = new.iter().find(rests).map_or(1, |line| line.line);
                return Err(ReadError::RestsOnMissing {
                    line,
                    device,
                    needs,
                    have,
                });
            }
        }
        Ok(())
    }

    /// Takes the file's ends over into a vector.
    pub(super) fn note_in(&self, vector: &mut Vector) {
        self.last.iter().for_each(|last| vector.note(last));
    }
}
