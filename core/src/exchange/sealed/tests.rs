//! Sealed files as lines: what is put together comes apart again, and what is wrong is said. The ciphers are not here, so that what is sealed
//! is any bytes at all.

use super::*;
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;

const IV: [u8; 12] = [9; 12];

fn lock_of(head: &str) -> String {
    jwe_line(head, &[5; 40], &IV, &[6; KEY + 16])
}

fn slice(n: u64, last: bool) -> String {
    jwe_line(&slice_head(n, last), &[], &IV, &[7; 100 + 16])
}

fn lock() -> String {
    lock_of(&lock_head(&[3; 16]))
}

/// A line with this header instead of ours.
fn headed(header: &str, like: &str) -> String {
    let (_, rest) = like.split_once('.').unwrap();
    [&BASE64URL.encode(header), ".", rest].concat()
}

fn read(file: &str, size: usize) -> Result<Vec<Sealed>, SealedError> {
    let mut reader = SealedReader::default();
    let mut found = Vec::new();
    for piece in file.as_bytes().chunks(size) {
        found.extend(reader.push(piece)?);
    }
    found.extend(reader.finish()?);
    Ok(found)
}

fn three() -> [String; 4] {
    [lock(), slice(1, false), slice(2, false), slice(3, true)]
}

#[test]
fn what_was_put_together_comes_apart() {
    let file = three().concat();
    let found = read(&file, 50).unwrap();
    assert_eq!(found.len(), 4);
    let Sealed::Lock(lock) = &found[0] else {
        panic!("a lock comes first");
    };
    assert_eq!(
        (lock.rounds, lock.wrapped.as_slice()),
        (210_000, [5; 40].as_slice())
    );
    assert_eq!(
        lock.salt,
        [b"PBES2-HS512+A256KW\0".as_slice(), &[3; 16]].concat()
    );
    assert_eq!(lock.body.sealed, [6; 48]);
    let Sealed::Slice(last) = &found[3] else {
        panic!("then slices");
    };
    assert_eq!((last.line, last.body.iv), (4, IV));
    assert_eq!(
        (last.body.sealed.as_slice(), &*last.body.head),
        ([7; 116].as_slice(), &*slice_head(3, true))
    );
    let header = BASE64URL.decode(&last.body.head).unwrap();
    assert_eq!(
        header,
        br#"{"alg":"dir","enc":"A256GCM","n":3,"last":true}"#
    );
    for same in [
        format!("\u{feff}{file}"),
        file.replace('\n', "\r\n"),
        file.trim_end().to_owned(),
        format!("{file}\r\n\n"),
    ] {
        assert_eq!(read(&same, 1_000).as_ref(), Ok(&found), "{same}");
    }
}

/// What other libraries write besides, in another order, is passed over.
#[test]
fn other_fields_of_a_header_are_passed_over() {
    let header = r#"{"typ":"x","p2c":10000,"enc":"A256GCM","p2s":"AAAAAAAAAAA","cty":"y","alg":"PBES2-HS512+A256KW"}"#;
    let file = [
        headed(header, &lock()),
        headed(
            r#"{"last":true,"n":1,"enc":"A256GCM","alg":"dir","kid":"z"}"#,
            &slice(1, true),
        ),
    ]
    .concat();
    let found = read(&file, 4_096).unwrap();
    assert!(matches!(&found[0], Sealed::Lock(lock) if lock.rounds == 10_000));
}

/// A slice of a whole MiB fits, one of a byte more does not, and no line grows without end.
#[test]
fn a_slice_is_a_mebibyte_at_the_most() {
    let of = |bytes: usize| {
        let line = jwe_line(&slice_head(1, true), &[], &IV, &vec![7; bytes + 16]);
        read(&[lock(), line].concat(), 1 << 20).map(|found| found.len())
    };
    assert_eq!(of(SLICE), Ok(2));
    let long = |line| SealedError::BadLine {
        line,
        reason: "it is longer than a slice".to_owned(),
    };
    assert_eq!(of(SLICE + 1), Err(long(2)));
    assert_eq!(of(SLICE * 2), Err(long(2)));
    let endless = format!("eyJ{}", "A".repeat(3 << 20));
    assert_eq!(read(&endless, 1 << 16), Err(SealedError::NotSealed));
}

#[test]
#[allow(clippy::too_many_lines)] // One after another, as long as there are ways to be bad.
fn each_bad_file_is_refused_with_its_sentence() {
    let [lock, one, two, last] = three();
    let header = |bent: &str| headed(bent, &lock);
    let first = |line: &str| [line, &one, &two, &last].concat();
    let second = |line: &str| [&lock, line, &two, &last].concat();
    let slice_header = |bent: &str| second(&headed(bent, &one));
    let p2c = |rounds: &str| {
        first(&header(&format!(
            r#"{{"alg":"PBES2-HS512+A256KW","enc":"A256GCM","p2s":"AwMDAwMDAwMDAwMDAwMDAw","p2c":{rounds}}}"#
        )))
    };
    let parts = |line: &str, at: usize, other: &str| {
        let mut parts: Vec<&str> = line.trim_end().split('.').collect();
        parts[at] = other;
        format!("{}\n", parts.join("."))
    };
    let other_lock = |from: &str, to: &str| {
        let plain = r#"{"alg":"PBES2-HS512+A256KW","enc":"A256GCM","p2s":"AwMDAwMDAwMDAwMDAwMDAw","p2c":210000}"#;
        assert!(plain.contains(from), "{from}");
        first(&header(&plain.replace(from, to)))
    };
    let all = [
        (
            "a book",
            "{\"format\":\"haulwren-book\"}\n".to_owned(),
            "This is not a sealed Haulwren file",
        ),
        (
            "nothing",
            String::new(),
            "This is not a sealed Haulwren file",
        ),
        (
            "a token of other use",
            "eyJhbGciOiJkaXIifQ\n".to_owned(),
            "Line 1 of the file is damaged (it has not five parts)",
        ),
        (
            "four parts",
            first(&parts(&lock, 4, "").replace(".\n", "\n")),
            "Line 1 of the file is damaged (it has not five parts)",
        ),
        (
            "six parts",
            second(&one.replace('\n', ".AA\n")),
            "Line 2 of the file is damaged (it has not five parts)",
        ),
        (
            "a header that is no base64url",
            first(&parts(&lock, 0, "eyJ*")),
            "Line 1 of the file is damaged (it is not base64url)",
        ),
        (
            "a header with padding",
            first(&parts(&lock, 0, "eyJhIjoxfQ==")),
            "Line 1 of the file is damaged (it is not base64url)",
        ),
        (
            "loose bits in base64url",
            first(&parts(&lock, 0, "eyJhIjoxfR")),
            "Line 1 of the file is damaged (it is not base64url)",
        ),
        (
            "a header that is no JSON",
            first(&header(r#"{"alg":"PBES2-HS512+A256KW""#)),
            "Line 1 of the file is damaged (its header is not JSON, or says a thing twice)",
        ),
        (
            "a header that is no text",
            second(&parts(&one, 0, "_w")),
            "Line 2 of the file is damaged (its header is not JSON)",
        ),
        (
            "a header that says a thing twice",
            other_lock("\"p2c\"", "\"p2c\":10000,\"p2c\""),
            "Line 1 of the file is damaged (its header is not JSON, or says a thing twice)",
        ),
        (
            "a header without end",
            first(&header(&format!("{{\"alg\":\"{}\"}}", "x".repeat(2_000)))),
            "Line 1 of the file is damaged (its header is too long)",
        ),
        (
            "another algorithm",
            other_lock("HS512+A256KW", "HS256+A128KW"),
            "Line 1 of the file is sealed in a way that this Haulwren does not open (alg: PBES2-HS256+A128KW)",
        ),
        (
            "another cipher",
            other_lock("A256GCM", "A128CBC-HS256"),
            "Line 1 of the file is sealed in a way that this Haulwren does not open (enc: A128CBC-HS256)",
        ),
        (
            "critical fields",
            other_lock("\"p2c\"", "\"crit\":[\"b64\"],\"p2c\""),
            "Line 1 of the file is sealed in a way that this Haulwren does not open (crit)",
        ),
        (
            "packed",
            slice_header(r#"{"alg":"dir","enc":"A256GCM","n":1,"last":false,"zip":"DEF"}"#),
            "Line 2 of the file is sealed in a way that this Haulwren does not open (zip)",
        ),
        (
            "too few rounds",
            p2c("9999"),
            "Line 1 of the file asks for 9999 rounds on the passphrase; 10000 to 2000000 are taken",
        ),
        (
            "too many rounds",
            p2c("2000001"),
            "Line 1 of the file asks for 2000001 rounds",
        ),
        (
            "far too many rounds",
            p2c("18446744073709551615"),
            "Line 1 of the file asks for 18446744073709551615 rounds",
        ),
        (
            "rounds that are no number",
            p2c("\"210000\""),
            "Line 1 of the file is damaged (it has no count of rounds)",
        ),
        (
            "negative rounds",
            p2c("-1"),
            "Line 1 of the file is damaged (it has no count of rounds)",
        ),
        (
            "no salt",
            other_lock("p2s", "p3s"),
            "Line 1 of the file is damaged (it has no salt)",
        ),
        (
            "a salt of 7 bytes",
            other_lock("AwMDAwMDAwMDAwMDAwMDAw", "AwMDAwMDAw"),
            "Line 1 of the file is damaged (its salt is not 8 to 64 bytes in base64url)",
        ),
        (
            "a short wrapped key",
            first(&parts(&lock, 1, "BQUF")),
            "Line 1 of the file is damaged (its wrapped key is not 40 bytes long)",
        ),
        (
            "a short key",
            first(&parts(&lock, 3, "BgYG")),
            "Line 1 of the file is damaged (what it holds is not 32 bytes long)",
        ),
        (
            "a short vector",
            second(&parts(&one, 2, "CQkJ")),
            "Line 2 of the file is damaged (its initialization vector is not 12 bytes long)",
        ),
        (
            "a short tag",
            second(&parts(&one, 4, "BwcH")),
            "Line 2 of the file is damaged (its tag is not 16 bytes long)",
        ),
        (
            "a slice with a key",
            second(&parts(&one, 1, "BQUF")),
            "Line 2 of the file is damaged (it brings a key of its own)",
        ),
        (
            "a slice without number",
            slice_header(r#"{"alg":"dir","enc":"A256GCM","last":false}"#),
            "Line 2 of the file is damaged (it has no number)",
        ),
        (
            "slice 0",
            second(&slice(0, false)),
            "Line 2 of the file is damaged (it has no number)",
        ),
        (
            "a slice that does not say",
            slice_header(r#"{"alg":"dir","enc":"A256GCM","n":1}"#),
            "Line 2 of the file is damaged (it does not say whether it is the last)",
        ),
        (
            "a missing slice",
            [&*lock, &one, &last].concat(),
            "Line 3 of the file is slice 3, and slice 2 is due: some are missing, or moved",
        ),
        (
            "a missing first slice",
            [&*lock, &two, &last].concat(),
            "Line 2 of the file is slice 2, and slice 1 is due",
        ),
        (
            "swapped slices",
            [&*lock, &two, &one, &last].concat(),
            "Line 2 of the file is slice 2, and slice 1 is due",
        ),
        (
            "a repeated slice",
            [&*lock, &one, &one, &two, &last].concat(),
            "Line 3 of the file is slice 1 again",
        ),
        (
            "a second lock",
            [&*lock, &lock, &one].concat(),
            "Line 2 of the file is sealed in a way that this Haulwren does not open (alg: PBES2-HS512+A256KW)",
        ),
        (
            "a slice first",
            [&*one, &two, &last].concat(),
            "Line 1 of the file is sealed in a way that this Haulwren does not open (alg: dir)",
        ),
        (
            "no last slice",
            [&*lock, &one, &two].concat(),
            "The file ends too early, at line 3: its end is missing.",
        ),
        (
            "a lock alone",
            lock.clone(),
            "The file ends too early, at line 1: its end is missing.",
        ),
        (
            "cut in a slice",
            [&lock, &one[..one.len() - 30]].concat(),
            "The file ends too early, at line 2: its end is missing.",
        ),
        (
            "a slice after the last",
            [&*lock, &one, &two, &last, &slice(4, false)].concat(),
            "Line 5 stands after the end of the file.",
        ),
        (
            "an empty line in between",
            [&*lock, "\n", &one, &two, &last].concat(),
            "Line 2 of the file is damaged (it has not five parts)",
        ),
    ];
    for (name, file, said) in &all {
        let error = read(file, 64).expect_err(name);
        let found = error.to_string();
        assert!(found.starts_with(said), "{name}: {found}");
    }
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let file = three().concat();
    for end in 0..file.len() - 1 {
        assert!(read(&file[..end], 4_096).is_err(), "cut at {end}");
    }
    assert!(read(&file[..file.len() - 1], 4_096).is_ok());
}
