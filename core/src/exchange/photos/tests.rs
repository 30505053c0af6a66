//! Photo parts on small pictures: whole ones come out as they went in, and what is not whole is refused.

use super::*;
use crate::exchange::{Part, ReadError, sha256};

const HEADER: &str = r#"{"format":"haulwren-photos","version":1,"book":"01a1fefc-8f93-7101-8101-010101010101","sender":"abcdefgh"}"#;

fn header() -> PhotoHeader {
    PhotoHeader {
        book: "01a1fefc-8f93-7101-8101-010101010101".parse().unwrap(),
        sender: "abcdefgh".parse().unwrap(),
    }
}

fn text(part: &Part) -> String {
    String::from_utf8(part.pieces.concat()).unwrap()
}

fn read(text: &str, size: usize) -> Result<(PhotoHeader, Vec<Picture>), ReadError> {
    let mut reader = PhotoReader::new(vec![header().book]);
    let mut found = Vec::new();
    for piece in text.as_bytes().chunks(size) {
        found.extend(reader.push(piece)?);
    }
    Ok((reader.finish()?, found))
}

fn picture(bytes: Vec<u8>) -> Picture {
    let (sha256, mime) = (sha256(&bytes), "image/jpeg".to_owned());
    Picture {
        sha256,
        mime,
        bytes,
    }
}

fn written(pictures: &[Picture], limit: usize) -> Vec<String> {
    let mut writer = PhotoWriter::with_limit(header(), limit);
    let mut parts = Vec::new();
    for one in pictures {
        parts.extend(writer.photo(&one.sha256, &one.mime, &one.bytes));
    }
    parts.extend(writer.finish());
    parts.iter().map(text).collect()
}

#[test]
fn pictures_come_out_as_they_went_in() {
    let long: Vec<u8> = (0..=250).cycle().take(2 * ON_A_LINE + 5).collect();
    let exact = vec![7; ON_A_LINE];
    let pictures = [vec![1, 2, 3], long, Vec::new(), exact].map(picture);
    let parts = written(&pictures, super::super::MAX_PART);
    assert_eq!(parts.len(), 1);
    // One line each, and three.
    assert_eq!(parts[0].lines().count(), 1 + 6 + 1);
    assert_eq!(parts[0].lines().next(), Some(HEADER));
    assert!(parts[0].lines().all(|line| line.len() <= MAX_LINE));
    for size in [1_000_003, 4_096] {
        assert_eq!(read(&parts[0], size), Ok((header(), pictures.to_vec())));
    }
    let crlf = format!("\u{feff}{}", parts[0].replace('\n', "\r\n"));
    assert_eq!(read(crlf.trim_end(), 4_096).unwrap().1, pictures);
}

#[test]
fn parts_are_short_and_whole_by_themselves() {
    let pictures: Vec<Picture> = (0..9).map(|at| picture(vec![at; 300])).collect();
    let parts = written(&pictures, 1_500);
    assert!(
        parts.len() > 2 && parts.iter().all(|part| part.len() <= 1_500),
        "{parts:?}"
    );
    let found: Vec<Picture> = parts
        .iter()
        .rev()
        .flat_map(|part| read(part, 99).unwrap().1)
        .collect();
    assert_eq!(found.len(), 9);
    assert!(pictures.iter().all(|one| found.contains(one)));
    assert!(written(&[], 1_500).is_empty());
}

#[test]
fn a_file_cut_or_bent_anywhere_is_refused() {
    let text = written(&[picture(vec![1; 30]), picture(vec![2; 3])], 9_999).concat();
    let whole = read(&text, 64).unwrap();
    for end in 0..text.len() - 1 {
        assert!(read(&text[..end], 64).is_err(), "cut at {end}");
    }
    assert_eq!(read(text.trim_end(), 64).as_ref(), Ok(&whole));
    for at in 0..text.len() {
        for bit in 0..8 {
            let mut bent = text.clone().into_bytes();
            bent[at] ^= 1 << bit;
            let Ok(bent) = String::from_utf8(bent) else {
                continue;
            };
            if let Ok(found) = read(&bent, 64) {
                assert!(
                    found == whole && at == text.len() - 1,
                    "bit {bit} of byte {at}"
                );
            }
        }
    }
}
