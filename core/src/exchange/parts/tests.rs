//! Names of parts, and their ends.

use super::*;
use crate::change::Vector;
use crate::exchange::{Header, write_book};

fn header() -> Header {
    let have: Vector = json::read(r#"{"abcdefgh":4}"#).unwrap();
    Header::new(
        "01a1fefc-8f93-7101-8101-010101010101".parse().unwrap(),
        crate::money::Currency::from_code("USD").unwrap(),
        "abcdefgh".parse().unwrap(),
        have,
    )
}

fn line(seq: u64, size: usize) -> String {
    let name = "x".repeat(size);
    format!(
        r#"{{"k":"abcdefgh/{seq:010}","save":{seq},"stamp":"017f22e279b0-{seq:04x}-abcdefgh","seen":{{}},"at":[1795279327123,-300],"kind":"thing","id":"01a1fefc-8f93-7101-8101-010101010101","set":{{"name":"{name}"}}}}"#
    )
}

#[test]
fn parts_are_named_by_day_and_place() {
    assert_eq!(
        part_name("book", "2026-11-29", 1, 1),
        "haulwren-book-2026-11-29.txt"
    );
    assert_eq!(
        part_name("book", "2026-11-29", 2, 3),
        "haulwren-book-2026-11-29-2-of-3.txt"
    );
    assert_eq!(part_name("photos", "", 1, 1), "haulwren-photos-undated.txt");
}

/// Whatever is longer than a piece stays a piece of its own; together they are what `write_book` writes in one stretch.
#[test]
fn one_part_is_what_a_book_file_is() {
    for sizes in [
        vec![],
        vec![1, 2, 3],
        vec![700 << 10, 700 << 10, 1_500 << 10, 5],
    ] {
        let lines: Vec<String> = (1..)
            .zip(&sizes)
            .map(|(seq, size)| line(seq, *size))
            .collect();
        let mut writer = BookWriter::new(header(), Vector::default());
        for line in lines.iter().rev().chain(&lines) {
            assert_eq!(writer.line(line).unwrap(), []);
        }
        let part = writer.finish();
        let text = String::from_utf8(part.pieces.concat()).unwrap();
        assert!(
            text == write_book(&header(), lines.iter().map(String::as_str)),
            "{sizes:?}"
        );
        assert!(
            part.pieces
                .iter()
                .all(|piece| piece.len() <= (1_501 << 10) + 300)
        );
    }
}

#[test]
fn several_parts_say_so_in_their_heads() {
    let mut writer = BookWriter::with_limit(header(), Vector::default(), 700);
    let mut parts = Vec::new();
    // The fifth came too late.
    for seq in 1..=5 {
        parts.extend(writer.line(&line(seq, 100)).unwrap());
    }
    parts.push(writer.finish());
    let heads: Vec<String> = parts
        .iter()
        .map(|part| String::from_utf8(part.pieces[0].clone()).unwrap())
        .collect();
    assert_eq!(heads.len(), 4);
    assert!(
        heads[0].ends_with(",\"have\":{\"abcdefgh\":4},\"part\":1}\n"),
        "{}",
        heads[0]
    );
    assert!(heads[3].ends_with("\"part\":4}\n"));
}
