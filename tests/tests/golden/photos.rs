//! Photo parts: how they are written, for ever; and what is said of those that are not whole.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::exchange::{
    FileKind, PhotoHeader, PhotoReader, PhotoWriter, Picture, ReadError, sha256,
};

const GOLDEN: &str = include_str!("photos-v1.txt");
const AGAIN: &str = " Ask for the file again.";

fn header() -> PhotoHeader {
    PhotoHeader {
        book: "01a1ff00-3913-7101-8101-010101010101".parse().unwrap(),
        sender: "phonecod".parse().unwrap(),
    }
}

/// Two pictures; whether a browser could draw them does not matter here.
fn pictures() -> [Picture; 2] {
    ["a lamp, from the left", "a lamp, from the right"].map(|drawn| Picture {
        sha256: sha256(drawn.as_bytes()),
        mime: "image/jpeg".to_owned(),
        bytes: drawn.as_bytes().to_vec(),
    })
}

fn written() -> String {
    let mut writer = PhotoWriter::new(header());
    for picture in pictures() {
        let full = writer.photo(&picture.sha256, &picture.mime, &picture.bytes);
        assert_eq!(full, None);
    }
    String::from_utf8(writer.finish().unwrap().pieces.concat()).unwrap()
}

fn read(file: &str) -> Result<Vec<Picture>, ReadError> {
    let mut reader = PhotoReader::new(vec![header().book]);
    let mut found = Vec::new();
    for piece in file.as_bytes().chunks(100) {
        found.extend(reader.push(piece)?);
    }
    assert_eq!(reader.finish()?, header());
    Ok(found)
}

#[test]
fn photo_parts_are_written_as_they_always_were() {
    crate::golden!("photos-v1.txt", &written());
}

#[test]
fn the_golden_photo_part_opens() {
    assert_eq!(FileKind::of(GOLDEN.as_bytes()), FileKind::Photos);
    assert_eq!(read(GOLDEN), Ok(pictures().to_vec()));
}

/// Lines under a last line that fits them.
fn ended(lines: &[&str]) -> String {
    let text = lines.join("\n");
    let (count, digest) = (lines.len() - 1, sha256(text.as_bytes()));
    format!("{text}\n{{\"count\":{count},\"sha256\":\"{digest}\"}}\n")
}

#[test]
#[allow(clippy::too_many_lines)] // One after another, as long as there are ways to be bad.
fn each_bad_photo_part_is_refused_with_its_sentence() {
    let lines: Vec<&str> = GOLDEN.lines().collect();
    let [head, left, right, end] = lines[..] else {
        panic!("a head, two pictures, an end");
    };
    let bent = |from: &str, to: &str| {
        assert!(left.contains(from), "{from}");
        ended(&[head, &left.replacen(from, to, 1), right])
    };
    let headed = |from: &str, to: &str| {
        assert!(head.contains(from), "{from}");
        ended(&[&head.replacen(from, to, 1), left, right])
    };
    let data = |of: &str| {
        let (_, data) = of.split_once(r#""data":""#).unwrap();
        data.trim_end_matches(['"', '}']).to_owned()
    };
    let first_of_two = left.replace(r#""last":true"#, r#""last":false"#);
    let whole_text = GOLDEN.trim_end();
    let bad: &[(&str, String, &str)] = &[
        ("nothing", String::new(), "The file is empty."),
        (
            "a table",
            "day,thing\n".to_owned(),
            "Line 1 of the file is damaged (it is no line of this book format: expected value at column 1).*",
        ),
        (
            "a book",
            headed("haulwren-photos", "haulwren-book"),
            "This is not a Haulwren book file: its first line is not the head of one.",
        ),
        (
            "a later format",
            headed(r#""version":1"#, r#""version":2"#),
            "A newer Haulwren wrote this file (format 2). Update Haulwren here, then open it again.",
        ),
        (
            "a head without book",
            headed(r#""book":"#, r#""bok":"#),
            "Line 1 of the file is damaged (it is no line of this book format: missing field `book`).*",
        ),
        (
            "another book's",
            headed("01a1ff00-", "01a1ff01-"),
            "The pictures in this file are of another book than the one on this device. Open that book's file first.",
        ),
        (
            "cut in the head",
            head[..40].to_owned(),
            "Line 1 of the file is damaged (it is no line of this book format: EOF while parsing a value at column 40).*",
        ),
        (
            "cut in a picture",
            GOLDEN[..head.len() + 50].to_owned(),
            "The file ends too early, at line 2: its end is missing.*",
        ),
        (
            "cut between lines",
            [head, left, ""].join("\n"),
            "The file ends too early, at line 2: its end is missing.*",
        ),
        (
            "cut in the end",
            whole_text[..whole_text.len() - 5].to_owned(),
            "The file ends too early, at line 4: its end is missing.*",
        ),
        (
            "one picture less",
            [head, right, end].join("\n") + "\n",
            "Line 3 of the file is damaged (lines before it are missing, or are too many).*",
        ),
        (
            "an altered picture",
            bent(&data(left)[..8], "AAAAAAAA"),
            "Line 2 of the file is damaged (the picture is not the one that it says).*",
        ),
        (
            "another picture's name",
            bent(&pictures()[0].sha256, &pictures()[1].sha256),
            "Line 2 of the file is damaged (the picture is not the one that it says).*",
        ),
        (
            "an altered head",
            GOLDEN.replace("phonecod", "phonecoe"),
            "The file was altered on its way: the check sum in line 4 does not fit.*",
        ),
        (
            "not base64",
            bent(r#""data":""#, r#""data":"*"#),
            "Line 2 of the file is damaged (its data is not base64).*",
        ),
        (
            "base64 for addresses, without padding",
            bent(&data(left), "_-8"),
            "Line 2 of the file is damaged (its data is not base64).*",
        ),
        (
            "no picture",
            bent("image/jpeg", "text/html"),
            "Line 2 of the file is damaged (it is no picture).*",
        ),
        (
            "a crooked media type",
            bent("image/jpeg", "image/JPEG;x"),
            "Line 2 of the file is damaged (it is no picture).*",
        ),
        (
            "a piece that is missing",
            bent(r#""n":1"#, r#""n":2"#),
            "Line 2 of the file is damaged (a piece of a picture is missing, or moved).*",
        ),
        (
            "a picture within another",
            ended(&[head, &first_of_two, right]),
            "Line 3 of the file is damaged (a piece of a picture is missing, or moved).*",
        ),
        (
            "a picture without end",
            ended(&[
                head,
                left,
                &right.replace(r#""last":true"#, r#""last":false"#),
            ]),
            "Line 4 of the file is damaged (lines before it are missing, or are too many).*",
        ),
        (
            "a field twice",
            bent(r#""n":1"#, r#""n":1,"n":1"#),
            "Line 2 of the file is damaged (it is no line of this book format: a field stands twice).*",
        ),
        (
            "after the end",
            format!("{GOLDEN}{left}\n"),
            "Line 5 stands after the end of the book.*",
        ),
    ];
    for (name, file, said) in bad {
        let error = read(file).expect_err(name);
        assert_eq!(error.to_string(), said.replace('*', AGAIN), "{name}");
    }
}
