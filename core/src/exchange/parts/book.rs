//! A book's changes, one by one, into as many files as are needed.

use super::links::Links;
use super::{Lines, MAX_PART, Part};
use crate::change::{BadLine, Vector};
use crate::exchange::Header;
use crate::exchange::book_file::header_line;

/// Writes a book, or what changed in it, in parts of which each can be taken once those before it are.
///
/// Changes are best handed in by their stamps: then each comes after all that it knows, and is written at once. One that comes before
/// something that it knows waits for it, so that the outcome holds in whatever order they come. Memory is needed for one part, and for
/// what waits.
#[derive(Debug)]
pub struct BookWriter {
    header: Header,
    limit: usize,
    /// What the reader has once it has read what is written so far.
    reader_has: Vector,
    lines: Lines,
    /// Parts that are closed.
    closed: u32,
    waiting: Vec<(Links, String)>,
}

impl BookWriter {
    /// A writer of what is not within `have`: what the last file *read from* the device that this one is for said. Of a device that no
    /// file was ever read from, nothing is known: then `have` is empty, and the whole book goes.
    #[must_use]
    pub fn new(header: Header, have: Vector) -> Self {
        Self::with_limit(header, have, MAX_PART)
    }

    /// The same with parts of at most so many bytes, as long as one change fits.
    #[must_use]
    pub fn with_limit(header: Header, have: Vector, limit: usize) -> Self {
        Self {
            header,
            limit,
            reader_has: have,
            lines: Lines::default(),
            closed: 0,
            waiting: Vec::new(),
        }
    }

    /// Takes the line of a change, byte for byte as it is stored. Gives the parts that are full. A line that was taken before is passed
    /// over, and so is one beyond the header's `have`: an import that is only laid beside the book, or what was saved meanwhile.
    ///
    /// # Errors
    /// When it is no change.
    pub fn line(&mut self, line: &str) -> Result<Vec<Part>, BadLine> {
        let links = Links::of(line)?;
        let mut full = Vec::new();
        let is_beyond = links.key.seq > self.header.have.of(links.key.device);
        if is_beyond || self.is_written(&links) {
            return Ok(full);
        }
        if !self.is_due(&links) {
            self.waiting.push((links, line.to_owned()));
            return Ok(full);
        }
        self.put(&links, line, &mut full);
        while let Some(at) = self
            .waiting
            .iter()
            .position(|(links, _)| self.is_due(links))
        {
            let (links, line) = self.waiting.swap_remove(at);
            self.put(&links, &line, &mut full);
        }
        Ok(full)
    }

    /// How many changes the header claims beyond what the reader has, and that were not written: some may have come, and wait for others.
    #[must_use]
    pub fn lacks(&self) -> u64 {
        let lacking =
            |key: crate::change::Key| key.seq.saturating_sub(self.reader_has.of(key.device));
        self.header.have.iter().map(lacking).sum()
    }

    /// The last part, and the only one when all fits. What still waits for something that never came goes in, whatever its length: a
    /// reader says what is missing.
    #[must_use]
    pub fn finish(mut self) -> Part {
        let mut rest = core::mem::take(&mut self.waiting);
        rest.sort_unstable_by_key(|(links, _)| links.key);
        for (links, line) in rest {
            if !self.is_written(&links) {
                self.reader_has.note(links.key);
                self.lines.push(&line);
            }
        }
        self.close(false)
    }

    fn is_written(&self, links: &Links) -> bool {
        links.key.seq <= self.reader_has.of(links.key.device)
    }

    fn is_due(&self, links: &Links) -> bool {
        let has = |key: &crate::change::Key| self.reader_has.of(key.device);
        links.key.seq == has(&links.key) + 1 && links.seen.iter().all(|seen| seen.seq <= has(&seen))
    }

    fn put(&mut self, links: &Links, line: &str, full: &mut Vec<Part>) {
        let header = header_line(&self.header).len();
        if !self.lines.is_empty() && !self.lines.has_room(line.len(), header, self.limit) {
            full.push(self.close(true));
        }
        self.reader_has.note(links.key);
        self.lines.push(line);
    }

    fn close(&mut self, more: bool) -> Part {
        self.closed += 1;
        let is_one_of_several = more || self.closed > 1;
        self.header.part = is_one_of_several.then_some(self.closed);
        self.lines.close(&header_line(&self.header))
    }
}
