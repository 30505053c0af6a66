//! The reader on a small book: what it takes, what it refuses, and what it says then.

use super::*;
use crate::change::{Change, Key};
use crate::exchange::{Header, write_book, write_changed};
use crate::id::DeviceCode;

const HEAD: &str = r#"{"format":"haulwren-book","version":1,"book":"01a1fefc-8f93-7101-8101-010101010101","currency":"USD","sender":"abcdefgh","have":{"abcdefgh":3}}"#;

fn device(code: &str) -> DeviceCode {
    code.parse().unwrap()
}

fn line(device: &str, seq: u64, seen: &str) -> String {
    format!(
        r#"{{"k":"{device}/{seq:010}","save":{seq},"stamp":"017f22e279b0-{seq:04x}-{device}","seen":{{{seen}}},"at":[1795279327123,-300],"kind":"thing","id":"01a1fefc-8f93-7101-8101-010101010101","set":{{"name":"Lamp"}}}}"#
    )
}

fn file(lines: &[String]) -> String {
    let header = ends::header(HEAD.as_bytes()).unwrap();
    write_book(&header, lines.iter().map(String::as_str))
}

fn nothing() -> Against {
    Against {
        book: None,
        joined: Vec::new(),
        vector: Vector::default(),
        untouched: true,
    }
}

/// A used book that knows so many changes of a device.
fn used(seq: u64) -> Against {
    let header: Header = ends::header(HEAD.as_bytes()).unwrap();
    let known = (seq > 0).then(|| Key {
        device: device("abcdefgh"),
        seq,
    });
    Against {
        book: Some((header.book, header.currency)),
        joined: vec![header.book],
        vector: known.into_iter().collect(),
        untouched: false,
    }
}

fn read(against: Against, bytes: &[u8]) -> Result<Incoming, ReadError> {
    let mut reader = BookReader::new(against);
    reader.push(bytes)?;
    reader.finish()
}

fn three() -> Vec<String> {
    (1..=3).map(|seq| line("abcdefgh", seq, "")).collect()
}

#[test]
fn what_is_new_is_told_from_what_is_known() {
    let text = file(&three());
    let incoming = read(used(2), text.as_bytes()).unwrap();
    assert_eq!((incoming.changes.len(), incoming.already_known), (1, 2));
    assert_eq!(incoming.changes[0].text, line("abcdefgh", 3, ""));
    assert_eq!(incoming.changes[0].line, 4);
    let new = NewOf {
        kind: RecordKind::Thing,
        records: 1,
        changes: 1,
    };
    assert_eq!(
        (incoming.new.as_slice(), incoming.meeting),
        ([new].as_slice(), Meeting::Same)
    );
    assert_eq!(incoming.touched(), [incoming.changes[0].record.clone()]);
    let key = |seq| Key {
        device: device("abcdefgh"),
        seq,
    };
    assert_eq!(incoming.compare(key(2), &line("abcdefgh", 2, "")), Ok(()));
    assert_eq!(incoming.compare(key(9), "of no concern"), Ok(()));
    let (line, device, seq) = (3, device("abcdefgh"), 2);
    let found = incoming.compare(key(2), "something else");
    assert_eq!(found, Err(ReadError::OtherWords { line, device, seq }));
    assert_eq!(incoming.far_ahead(0x017f_22e2_79b0), None);
    assert_eq!(incoming.far_ahead(0), Some(key(3)));
}

#[test]
fn marks_line_ends_and_a_lost_end_are_taken() {
    let text = file(&three());
    let plain = read(nothing(), text.as_bytes());
    assert_eq!(plain.as_ref().map(|incoming| incoming.changes.len()), Ok(3));
    let crlf = text.replace('\n', "\r\n");
    for same in [
        format!("\u{feff}{text}"),
        format!("\u{feff}{crlf}"),
        format!("{crlf}\r\n\n"),
        text.trim_end().to_owned(),
        crlf.strip_suffix('\n').unwrap().to_owned(),
    ] {
        assert_eq!(read(nothing(), same.as_bytes()), plain, "{same:?}");
    }
    let mut reader = BookReader::new(nothing());
    for byte in text.bytes() {
        reader.push(&[byte]).unwrap();
    }
    assert_eq!(reader.finish(), plain);
}

#[test]
fn a_file_is_a_run_without_holes() {
    let name = |_| "Phone".to_owned();
    let say = |against, lines: &[String]| {
        let found = read(against, file(lines).as_bytes());
        found.unwrap_err().sentence(&name)
    };
    let [one, two, three] = [1, 2, 3].map(|seq| line("abcdefgh", seq, ""));
    assert_eq!(
        say(used(0), &[two.clone(), three.clone()]),
        "The file begins after change 1 of Phone, yours ends at 0: ask for a whole book."
    );
    assert_eq!(
        say(used(0), &[one.clone(), three.clone()]),
        "Line 3 of the file goes from change 1 of Phone to change 3: some are missing. Ask for the file again."
    );
    assert_eq!(
        say(used(0), &[one.clone(), two.clone(), two.clone()]),
        "Line 4 of the file has change 2 of Phone again. Ask for the file again."
    );
    let other = line("ijklmnop", 1, r#""abcdefgh":5"#);
    assert_eq!(
        say(used(4), std::slice::from_ref(&other)),
        "Line 2 of the file rests on change 5 of Phone, and you would have them up to 4: ask for a whole book."
    );
    assert!(read(used(5), file(&[other]).as_bytes()).is_ok());
    assert!(read(used(2), file(&[three]).as_bytes()).is_ok());
}

#[test]
fn a_book_of_other_money_is_refused_and_another_used_one_is_said() {
    let text = file(&three());
    let mut euros = used(0);
    euros.book = euros
        .book
        .map(|(id, _)| (id, crate::money::Currency::from_code("EUR").unwrap()));
    let said = read(euros.clone(), text.as_bytes())
        .unwrap_err()
        .to_string();
    assert!(
        said.starts_with("The file's book is in USD and this one in EUR."),
        "{said}"
    );
    euros.untouched = true;
    assert_eq!(
        read(euros, text.as_bytes()).unwrap().meeting,
        Meeting::Fresh
    );
    let mut two = used(0);
    two.joined = vec![BookId(uuid::Uuid::max())];
    assert_eq!(
        read(two.clone(), text.as_bytes()).unwrap().meeting,
        Meeting::Two
    );
    // The other has joined ours: its file holds our book's own record.
    let ours = line("ijklmnop", 1, "")
        .replace("\"thing\"", "\"book\"")
        .replace(
            "01a1fefc-8f93-7101-8101-010101010101",
            &uuid::Uuid::max().to_string(),
        );
    assert_eq!(
        read(two, file(&[ours]).as_bytes()).unwrap().meeting,
        Meeting::Same
    );
}

#[test]
fn the_first_line_tells_what_the_file_is() {
    let text = file(&three());
    let check = |bent: &[u8], expected: &str| {
        let said = read(nothing(), bent).unwrap_err().to_string();
        assert!(said.starts_with(expected), "{said}");
    };
    check(b"", "The file is empty.");
    let long = vec![b' '; 3 << 20];
    for foreign in [
        b"\n".as_slice(),
        b"\xff\xd8\xff",
        b"[1,2]",
        br#"{"a":1}"#,
        b"day,thing\r\n",
        &long,
    ] {
        check(foreign, "This is not a Haulwren book file");
    }
    let newer = text.replace("\"version\":1", "\"version\":2");
    check(
        newer.as_bytes(),
        "A newer Haulwren wrote this file (format 2).",
    );
    for (piece, other) in [
        ("\"version\":1", "\"version\":0"),
        ("\"version\":1", "\"version\":1,\"version\":1"),
        ("\"currency\":\"USD\",", ""),
        ("USD", "ABC"),
    ] {
        check(
            text.replacen(piece, other, 1).as_bytes(),
            "Line 1 of the file is damaged (",
        );
    }
}

#[test]
fn only_what_changed_is_written_for_who_has_the_rest() {
    let header = ends::header(HEAD.as_bytes()).unwrap();
    let lines = three();
    let changed = write_changed(&header, &used(2).vector, lines.iter().map(String::as_str));
    assert_eq!(changed, file(&lines[2..]));
    assert_eq!(
        write_changed(
            &header,
            &Vector::default(),
            lines.iter().map(String::as_str)
        ),
        file(&lines)
    );
    let change: Change = read(used(2), changed.as_bytes()).unwrap().changes[0].change();
    assert_eq!(change.line(), lines[2]);
}
