//! A change as one line of text: what is stored, and what a book file carries, byte for byte.

use super::Change;
use crate::json::{self, Object, field, take_object};
use serde::de::Error as _;
use serde_json::{Error, Value};

/// The longest line that is taken, in bytes.
pub const MAX_LINE: usize = 2 * 1024 * 1024;

/// How deep braces and brackets may nest in a line, its own braces counted.
pub const MAX_DEPTH: usize = 16;

/// Why a line is no change.
#[derive(Debug, thiserror::Error)]
pub enum BadLine {
    /// Too long to be ours.
    #[error("the line is longer than 2 MiB")]
    TooLong,
    /// Too deep to be ours.
    #[error("the line nests deeper than {MAX_DEPTH} levels")]
    TooDeep,
    /// No change in JSON.
    #[error("it is no line of this book format: {0}")]
    NotAChange(#[from] Error),
    /// The save's first number lies after the change.
    #[error("the change says that its save began after it")]
    SaveAfter,
    /// The stamp is another device's.
    #[error("the change carries another device's stamp")]
    OthersStamp,
    /// The change claims to know its own device through `seen`.
    #[error("the change lists its own device among the others")]
    SeesItself,
}

impl Change {
    /// The change as its line, without the line's end. Fields stand in the order of their names, at every depth, so that a change is
    /// always the same bytes.
    ///
    /// # Panics
    /// Never: each part has a JSON form.
    #[must_use]
    pub fn line(&self) -> String {
        let mut set = Value::Object(self.set.clone());
        set.sort_all_objects();
        json::ordered(&[
            ("k", json::write(&self.key)),
            ("save", json::write(&self.save)),
            ("stamp", json::write(&self.stamp)),
            ("seen", json::write(&self.seen)),
            ("at", json::write(&self.at)),
            ("kind", json::write(&self.kind)),
            ("id", json::write(&self.id)),
            ("set", json::text(&set)),
        ])
    }

    /// Reads a line back.
    ///
    /// # Errors
    /// When it is too long, too deep, no change, or contradicts itself.
    pub fn from_line(line: &str) -> Result<Self, BadLine> {
        let mut object = read_line(line)?;
        if object.len() > FIELDS {
            return Err(Error::custom("there is a field that no change has").into());
        }
        let change = Self {
            key: field(&object, "k")?,
            save: field(&object, "save")?,
            stamp: field(&object, "stamp")?,
            seen: field(&object, "seen")?,
            at: field(&object, "at")?,
            kind: field(&object, "kind")?,
            id: field(&object, "id")?,
            set: take_object(&mut object, "set")?,
        };
        if change.save == 0 || change.save > change.key.seq {
            return Err(BadLine::SaveAfter);
        }
        if change.stamp.device != change.key.device {
            return Err(BadLine::OthersStamp);
        }
        if change.seen.of(change.key.device) != 0 {
            return Err(BadLine::SeesItself);
        }
        Ok(change)
    }
}

/// How many fields a change has.
const FIELDS: usize = 8;

/// Reads the object that a line of a book file is.
///
/// # Errors
/// When it is too long, too deep, no object, or names a field twice, at whatever depth: readers differ in what they make of that
/// (RFC 8259 section 4).
pub(crate) fn read_line(line: &str) -> Result<Object, BadLine> {
    if line.len() > MAX_LINE {
        return Err(BadLine::TooLong);
    }
    let shape = shape(line);
    if shape.depth > MAX_DEPTH {
        return Err(BadLine::TooDeep);
    }
    let object = json::read_object(line)?;
    // Of two fields of one name, one is left once they are read.
    if object.values().map(fields).sum::<usize>() + object.len() != shape.fields {
        return Err(Error::custom("a field stands twice").into());
    }
    Ok(object)
}

/// How many fields the objects in a value hold, at all depths.
fn fields(value: &Value) -> usize {
    match value {
        Value::Object(object) => object.len() + object.values().map(fields).sum::<usize>(),
        Value::Array(values) => values.iter().map(fields).sum(),
        _ => 0,
    }
}

/// What a line is before it is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Shape {
    /// How deep braces and brackets nest outside of texts, whether or not they are closed.
    depth: usize,
    /// How many fields it has at all depths, those that stand twice counted twice.
    fields: usize,
}

fn shape(line: &str) -> Shape {
    let (mut depth, mut deepest, mut fields) = (0_usize, 0, 0);
    let (mut in_text, mut escaped) = (false, false);
    for byte in line.bytes() {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if in_text => escaped = true,
            b'"' => in_text = !in_text,
            _ if in_text => {}
            b'{' | b'[' => {
                depth += 1;
                deepest = deepest.max(depth);
            }
            b'}' | b']' => depth = depth.saturating_sub(1),
            b':' => fields += 1,
            _ => {}
        }
    }
    Shape {
        depth: deepest,
        fields,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_counted_at_all_depths_outside_of_texts() {
        let check = |line, expected| assert_eq!(shape(line).fields, expected, "{line}");
        check("{}", 0);
        check(r#"{"a":1}"#, 1);
        check(r#"{"a":":","a" : {"b":{"c":1}}}"#, 4);
        check(r#"{"a\":":[1,{"b":2}]}"#, 2);
    }

    #[test]
    fn a_field_stands_once_at_every_depth() {
        assert!(read_line(r#"{"a":{"a":[{"a":1},{"a":2}]}}"#).is_ok());
        for line in [
            r#"{"a":1,"a":1}"#,
            r#"{"a":{"b":1,"b":2}}"#,
            r#"{"a":[{"b":1,"\u0062":2}]}"#,
        ] {
            assert!(read_line(line).is_err(), "{line}");
        }
    }

    #[test]
    fn depth_counts_brackets_outside_of_texts() {
        let check = |line, expected| assert_eq!(shape(line).depth, expected, "{line}");
        check("", 0);
        check("{}", 1);
        check(r#"{"a":[{}],"b":[]}"#, 3);
        check(r#"{"a":"[[{{"}"#, 1);
        check(r#"{"a":"\"[[","b":[]}"#, 2);
        check(r#"{"a":"\\","b":[[]]}"#, 3);
        check("]]]{", 1);
        check("[[[[", 4);
    }

    const GOOD: &str = r#"{"k":"abcdefgh/0000000002","save":1,"stamp":"017f22e279b0-0003-abcdefgh","seen":{"ijklmnop":12},"at":[1795279327123,-300],"kind":"thing","id":"01a1fefc-8f93-7101-8101-010101010101","set":{"name":"Lamp"}}"#;

    /// What becomes of the good line when one piece of it is another.
    fn bent(piece: &str, other: &str) -> Result<Change, BadLine> {
        assert!(GOOD.contains(piece), "{piece}");
        Change::from_line(&GOOD.replace(piece, other))
    }

    #[test]
    fn a_line_that_contradicts_itself_is_refused() {
        assert_eq!(Change::from_line(GOOD).unwrap().line(), GOOD);
        for save in ["0", "3"] {
            let found = bent(r#""save":1"#, &format!(r#""save":{save}"#));
            assert!(matches!(found, Err(BadLine::SaveAfter)), "{save}");
        }
        let found = bent("0003-abcdefgh", "0003-ijklmnop");
        assert!(matches!(found, Err(BadLine::OthersStamp)));
        let found = bent(r#"{"ijklmnop":12}"#, r#"{"abcdefgh":1}"#);
        assert!(matches!(found, Err(BadLine::SeesItself)));
        let found = Change::from_line(&" ".repeat(MAX_LINE + 1));
        assert!(matches!(found, Err(BadLine::TooLong)));
    }

    #[test]
    fn a_line_of_another_form_is_refused() {
        let check = |piece, other| {
            let found = bent(piece, other);
            assert!(matches!(found, Err(BadLine::NotAChange(_))), "{other}");
        };
        check(r#""save":1,"#, "");
        check(r#""save":1,"#, r#""save":1,"save":1,"#);
        check(r#""save":1,"#, r#""save":1,"later":1,"#);
        check(r#""save":1"#, r#""save":"1""#);
        check("/0000000002", "/2");
        check("-0003-", "-3-");
        check("abcdefgh", "abcdefg1");
        check("[1795279327123,-300]", "[1795279327123]");
        check("-300", "-30.5");
        check("-300", "70000");
        check(r#"{"name":"Lamp"}"#, r#"["name"]"#);
        check(r#"{"name":"Lamp"}"#, r#"{"name":"Lamp","name":"Coat"}"#);
        check("01a1fefc-", "x1a1fefc-");
        check("}}", "}");
        check("}}", "}},");
    }
}
