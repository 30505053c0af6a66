//! The digest of the book file.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::exchange::sha256;

fn check(message: &[u8], expected: &str) {
    assert_eq!(sha256(message), expected, "{} bytes", message.len());
}

/// The examples of FIPS 180-4 for SHA-256: one block (S2), two blocks, a million letters (M); no bytes at all. All R with
/// Python's hashlib 3.
#[test]
fn digests_are_those_of_the_standard() {
    check(
        b"abc",
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
    );
    check(
        b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    );
    check(
        &vec![b'a'; 1_000_000],
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
    );
    check(
        b"",
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    );
}
