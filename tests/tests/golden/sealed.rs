//! A sealed book file, by an independent library (`jose` on Node). That it opens is tried in a browser, which has the ciphers; here, that
//! its lines are read as they stand.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::exchange::FileKind;
use haulwren_core::exchange::sealed::{ROUNDS, Sealed, SealedReader};

const GOLDEN: &str = include_str!("sealed-v1.txt");

#[test]
fn the_golden_sealed_file_is_a_lock_and_a_slice() {
    assert_eq!(FileKind::of(GOLDEN.as_bytes()), FileKind::Sealed);
    let mut reader = SealedReader::default();
    let found = reader.push(GOLDEN.as_bytes()).unwrap();
    assert_eq!(reader.finish(), Ok(Vec::new()));
    let [Sealed::Lock(lock), Sealed::Slice(slice)] = found.as_slice() else {
        panic!("a lock and a slice");
    };
    assert_eq!((lock.rounds, lock.wrapped.len()), (ROUNDS, 40));
    assert!(lock.salt.starts_with(b"PBES2-HS512+A256KW\0"));
    // The golden book, and the tag.
    let plain = include_bytes!("book-v1.txt").len();
    assert_eq!(slice.body.sealed.len(), plain + 16);
}
