//! What a change's line hangs together with: its key, and what was seen. Read without reading the rest, of which there may be megabytes.

use crate::change::{BadLine, Change, Key, Vector};
use crate::json;

/// Them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Links {
    pub(super) key: Key,
    pub(super) seen: Vector,
}

impl Links {
    /// Of a line as it is stored.
    pub(super) fn of(line: &str) -> Result<Self, BadLine> {
        // Lines are written with their fields in one order; one that came otherwise is read whole.
        if let Some(links) = Self::at_its_place(line) {
            return Ok(links);
        }
        let change = Change::from_line(line)?;
        Ok(Self {
            key: change.key,
            seen: change.seen,
        })
    }

    fn at_its_place(line: &str) -> Option<Self> {
        let (key, rest) = line.strip_prefix(r#"{"k":""#)?.split_once(r#"","save":"#)?;
        let (save, rest) = rest.split_once(r#","stamp":""#)?;
        let (stamp, rest) = rest.split_once(r#"","seen":"#)?;
        // Were there a mark in them, something else might stand before what was found.
        let is_plain = |text: &str| {
            text.bytes()
                .all(|byte| byte.is_ascii_alphanumeric() || byte == b'-')
        };
        if !(is_plain(save) && is_plain(stamp)) {
            return None;
        }
        let end = rest.find('}')? + 1;
        Some(Self {
            key: key.parse().ok()?,
            seen: json::read(&rest[..end]).ok()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINE: &str = r#"{"k":"abcdefgh/0000000002","save":1,"stamp":"017f22e279b0-0003-abcdefgh","seen":{"ijklmnop":12},"at":[1795279327123,-300],"kind":"thing","id":"01a1fefc-8f93-7101-8101-010101010101","set":{"name":"\"seen\":{"}}"#;

    #[test]
    fn links_are_what_the_whole_line_says() {
        let change = Change::from_line(LINE).unwrap();
        let whole = Links {
            key: change.key,
            seen: change.seen,
        };
        assert_eq!(Links::at_its_place(LINE), Some(whole.clone()));
        assert_eq!(Links::of(LINE).unwrap(), whole);
        // Another program's order, with a misleading field in front.
        let set = r#""set":{"x":{"seen":{"zzzzzzzz":9}},"name":"\",\"stamp\":\""}"#;
        let other = LINE.replace(r#"{"k":"#, &format!(r#"{{{set},"k":"#));
        let other = other.replace(r#","set":{"name":"\"seen\":{"}"#, "");
        assert_eq!(Links::at_its_place(&other), None);
        assert_eq!(Links::of(&other).unwrap(), whole);
        let between = LINE.replace(r#","save":1,"#, &format!(r#","save":1,{set},"#));
        let between = between.replace(r#","set":{"name":"\"seen\":{"}"#, "");
        assert_eq!(Links::of(&between).unwrap(), whole);
        assert!(Links::of("{}").is_err());
    }
}
