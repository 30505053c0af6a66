//! Sealing and opening with the browser's ciphers, and published vectors of them.

use super::*;
use crate::shell::bring::Unread;
use crate::shell::source::{Chosen, look_at};
use haulwren_core::exchange::sealed::Sealed;
use haulwren_core::exchange::sealed::SealedReader;
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::Blob;

const WORDS: &str = "otter brass ferry lamp";

fn words(typed: &str) -> Passphrase {
    Passphrase::of(typed).expect("a passphrase")
}

async fn seal(plain: &[u8]) -> Vec<String> {
    let (mut sealer, first) = Sealer::begin(&words(WORDS)).await.expect("ciphers");
    let mut lines = vec![first];
    // In pieces of an odd size.
    for piece in plain.chunks(300_007) {
        lines.extend(sealer.push(piece).await.expect("ciphers"));
    }
    lines.push(sealer.finish().await.expect("ciphers"));
    lines
}

/// Opens a file as one that was chosen; what is said when it does not open.
async fn opened_by(file: &str, typed: &str) -> Result<Vec<u8>, String> {
    let said = |why: Unread| match why {
        Unread::Unopened(Unopened::Unfit(error)) => error.to_string(),
        other => format!("{other:?}"),
    };
    let blob = Blob::new_with_str_sequence(&Array::of1(&file.into())).expect("a file");
    let source = match look_at(blob).await.map_err(said)? {
        Chosen::Locked(locked) => locked.open(&words(typed)).await.map_err(said)?,
        Chosen::Plain(source) => source,
    };
    let (mut pieces, mut plain) = (source.pieces(), Vec::new());
    while let Some(piece) = pieces.next(&|_, _| {}).await.map_err(said)? {
        plain.extend(piece);
    }
    Ok(plain)
}

fn some(bytes: usize) -> Vec<u8> {
    (0..bytes)
        .map(|at| u8::try_from(at * 7 % 251).unwrap_or(0))
        .collect()
}

#[wasm_bindgen_test]
async fn what_is_sealed_opens_again() {
    for (bytes, slices) in [
        (0, 1),
        (1, 1),
        (SLICE, 1),
        (SLICE + 1, 2),
        (2 * SLICE + 500_000, 3),
    ] {
        let plain = some(bytes);
        let lines = seal(&plain).await;
        assert_eq!(lines.len(), 1 + slices, "{bytes}");
        assert!(
            opened_by(&lines.concat(), WORDS).await == Ok(plain),
            "{bytes}"
        );
    }
}

/// Nothing of a file is like anything of another of the same content.
#[wasm_bindgen_test]
async fn salt_and_keys_are_fresh() {
    let [one, other] = [seal(b"the same").await, seal(b"the same").await];
    let parts = |lines: &[String]| -> Vec<String> {
        let parts = lines.iter().flat_map(|line| line.trim().split('.'));
        parts
            .filter(|part| !part.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let (one, other) = (parts(&one), parts(&other));
    let same: Vec<&String> = one.iter().filter(|part| other.contains(part)).collect();
    // A slice's header alone says the same: its number.
    assert_eq!(same, [&slice_head(1, true)]);
}

#[wasm_bindgen_test]
async fn another_passphrase_does_not_open_it() {
    let file = seal(b"plain").await.concat();
    for typed in [
        "otter brass ferry",
        "Otter brass ferry lamp",
        "otter  brass ferry lamp",
        "x",
    ] {
        let said = opened_by(&file, typed).await;
        let wrong = SealedError::WrongPassphrase.to_string();
        assert_eq!(said, Err(wrong), "{typed}");
    }
    // Blanks at the ends, and other spaces in between, make no difference.
    for typed in [
        " otter brass ferry lamp ",
        "otter\u{a0}brass\u{2003}ferry\u{3000}lamp",
    ] {
        assert_eq!(
            opened_by(&file, typed).await,
            Ok(b"plain".to_vec()),
            "{typed}"
        );
    }
}

/// RFC 8265 section 4.2: spaces of other scripts become plain ones, and what looks the same is the same (NFC).
#[wasm_bindgen_test]
fn a_passphrase_is_what_was_typed_in_one_form() {
    let bytes = |typed: &str| Passphrase::of(typed).map(|Passphrase(bytes)| bytes);
    assert_eq!(bytes("caf\u{e9}"), Some("caf\u{e9}".as_bytes().to_vec()));
    assert_eq!(bytes("cafe\u{301}"), bytes("caf\u{e9}"));
    assert_eq!(bytes("\u{212b}"), bytes("\u{c5}"));
    // Not NFKC: what looks other stays other.
    assert_ne!(bytes("\u{fb01}"), bytes("fi"));
    assert_eq!(bytes("a\u{a0}b"), bytes("a b"));
    assert_eq!(bytes(" a b\t"), bytes("a b"));
    assert_eq!((bytes(""), bytes(" \u{3000}")), (None, None));
}

/// One character of each part of each line replaced: at its beginning, in the middle, at its end.
#[wasm_bindgen_test]
async fn a_bent_character_in_any_part_is_noticed() {
    let lines = seal(&some(900)).await;
    assert_eq!(lines.len(), 2);
    let mut tried = 0;
    for (which, line) in lines.iter().enumerate() {
        let mut start = 0;
        for part in line.trim_end().split('.') {
            let mut places = vec![0, part.len() / 2, part.len().saturating_sub(1)];
            places.retain(|place| *place < part.len());
            places.dedup();
            for place in places {
                let mut bent: Vec<Vec<u8>> =
                    lines.iter().map(|line| line.clone().into_bytes()).collect();
                let byte = &mut bent[which][start + place];
                *byte = if *byte == b'Q' { b'g' } else { b'Q' };
                let bent = String::from_utf8(bent.concat()).expect("text");
                // Where the file no longer looks sealed, a book's reader refuses it.
                let said = opened_by(&bent, WORDS).await;
                assert!(said != Ok(some(900)), "line {which}, {part} at {place}");
                assert!(
                    said.is_err() || which + start + place == 0,
                    "line {which}, {part} at {place}"
                );
                tried += 1;
            }
            start += part.len() + 1;
        }
    }
    assert!(tried > 25, "{tried}");
}

#[wasm_bindgen_test]
async fn slices_stand_in_their_places() {
    let plain = some(2 * SLICE + 10);
    let [ours, others] = [seal(&plain).await, seal(&plain).await];
    let said = async |lines: &[&str]| {
        opened_by(&lines.concat(), WORDS)
            .await
            .expect_err("refused")
    };
    let [lock, one, two, last] = [0, 1, 2, 3].map(|at| ours[at].as_str());
    let missing = said(&[lock, one, last]).await;
    assert!(
        missing.starts_with("Line 3 of the file is slice 3, and slice 2 is due"),
        "{missing}"
    );
    let swapped = said(&[lock, two, one, last]).await;
    assert!(
        swapped.starts_with("Line 2 of the file is slice 2, and slice 1 is due"),
        "{swapped}"
    );
    let repeated = said(&[lock, one, one, two, last]).await;
    assert!(
        repeated.starts_with("Line 3 of the file is slice 1 again"),
        "{repeated}"
    );
    let cut = said(&[lock, one, two]).await;
    assert!(
        cut.starts_with("The file ends too early, at line 3"),
        "{cut}"
    );
    let more = said(&[lock, one, two, last, last]).await;
    assert!(more.starts_with("Line 5 stands after the end"), "{more}");
    // Of another file under the same passphrase.
    let foreign = said(&[lock, one, &others[2], last]).await;
    assert!(
        foreign.starts_with("Line 3 of the file was altered"),
        "{foreign}"
    );
    let other_lock = said(&[&others[0], one, two, last]).await;
    assert!(
        other_lock.starts_with("Line 2 of the file was altered"),
        "{other_lock}"
    );
    // Under headers that say otherwise than what was sealed.
    let under = |n, is_last, line: &str| {
        let (_, rest) = line.split_once('.').expect("five parts");
        format!("{}.{rest}", slice_head(n, is_last))
    };
    let renumbered = said(&[lock, one, &under(2, true, last)]).await;
    assert!(
        renumbered.starts_with("Line 3 of the file was altered"),
        "{renumbered}"
    );
    let ended = said(&[lock, one, &under(2, true, two)]).await;
    assert!(
        ended.starts_with("Line 3 of the file was altered"),
        "{ended}"
    );
}

/// A file that an independent library sealed (`jose` on Node, by `tests/tests/journeys/jose.mjs`) opens for ever.
#[wasm_bindgen_test]
async fn the_golden_file_opens() {
    let golden = include_str!("../../../../tests/tests/golden/sealed-v1.txt");
    let plain = include_bytes!("../../../../tests/tests/golden/book-v1.txt");
    for typed in [
        "Caf\u{e9} am Kai, 7 W\u{e4}sche",
        "Cafe\u{301} am Kai, 7 Wa\u{308}sche ",
    ] {
        assert_eq!(opened_by(golden, typed).await, Ok(plain.to_vec()));
    }
}

/// The lock's own cipher text opens by the published key: RFC 7520 section 5.3 (PBES2-HS512+A256KW).
#[wasm_bindgen_test]
async fn the_key_of_a_lock_is_wrapped_as_published() {
    // "entrap_o–peter_long–credit_tun", salt 8Q1SzinasR3xchYz6ZZcHA, 8192 rounds.
    let salt = bytes("f10d52ce29dab11df1721633e9965c1c");
    let passphrase = words("entrap_o\u{2013}peter_long\u{2013}credit_tun");
    let wrapping = wrapping_key(&passphrase, &salt_input(&salt), 8_192).await;
    let wrapping = wrapping.expect("ciphers");
    // d3qNhUWfqheyPp4H8sjOWsDYajoej4c5Je6rlUtFPWdgtURtmeDV1g
    let wrapped =
        bytes("777a8d85459faa17b23e9e07f2c8ce5ac0d86a3a1e8f873925eeab954b453d6760b5446d99e0d5d6");
    let arguments = [
        "raw".into(),
        Uint8Array::from(wrapped.as_slice()).into(),
        wrapping,
        "AES-KW".into(),
        named("AES-GCM").into(),
        true.into(),
        uses(&["decrypt"]),
    ];
    let key = ask("unwrapKey", &arguments).await.expect("it unwraps");
    let raw = ask("exportKey", &["raw".into(), key])
        .await
        .expect("it leaves");
    // uwsjJXaBK407Qaf0_zpcpmr1Cs0CC50hIUEyGNEt3m0
    let published = bytes("bb0b232576812b8d3b41a7f4ff3a5ca66af50acd020b9d2121413218d12dde6d");
    assert_eq!(Uint8Array::new(&raw).to_vec(), published);
}

/// A256GCM over a compact header: RFC 7516 appendix A.1.
#[wasm_bindgen_test]
async fn a_line_is_sealed_as_published() {
    let key = [
        177, 161, 244, 128, 84, 143, 225, 115, 63, 180, 3, 255, 107, 154, 212, 246, 138, 7, 110,
        91, 112, 46, 34, 105, 47, 130, 203, 46, 122, 234, 64, 252,
    ];
    let key = file_key(&Uint8Array::from(key.as_slice()))
        .await
        .expect("ciphers");
    let body = Body {
        head: "eyJhbGciOiJSU0EtT0FFUCIsImVuYyI6IkEyNTZHQ00ifQ".to_owned(),
        iv: [227, 197, 117, 252, 2, 219, 233, 68, 180, 225, 77, 219],
        // The ciphertext, and the tag after it.
        sealed: bytes(
            "e5eca6f135bf73c4ae2b496d277ae9608cce783433ed300bbedbba506f68328e2fa73b3db57fc4152852f2207b8fa8e249d8b0908af76a3c10cda06d403fc0\
             5c5068318519a1d7ad65dbd3885bd291",
        ),
    };
    let plain = opened(&key.0, &body).await.expect("it opens");
    let published = b"The true sign of intelligence is not knowledge but imagination.";
    assert_eq!(plain.to_vec(), published);
}

fn bytes(digits: &str) -> Vec<u8> {
    let pairs = digits.as_bytes().chunks(2);
    let pairs = pairs.map(|pair| core::str::from_utf8(pair).expect("text"));
    pairs
        .map(|pair| u8::from_str_radix(pair, 16).expect("digits"))
        .collect()
}

/// The reader's lines are what the sealer wrote.
#[wasm_bindgen_test]
async fn the_first_line_is_a_lock_and_the_rest_are_slices() {
    let file = seal(b"x").await.concat();
    let mut reader = SealedReader::default();
    let found = reader.push(file.as_bytes()).expect("lines");
    assert!(matches!(
        found.as_slice(),
        [Sealed::Lock(_), Sealed::Slice(_)]
    ));
}
