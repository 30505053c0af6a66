//! Ids of records and codes of devices.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::id::{DeviceCode, uuid_v7};

/// RFC 9562, appendix A.6 (S2; R with Python's uuid 3): 1645557742000 ms gives this UUID of version 7.
#[test]
fn the_example_of_the_standard_comes_of_its_time_and_chance() {
    const MS: u64 = 1_645_557_742_000;
    let chance = [0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
    let found = uuid_v7(MS, &chance);
    let printed = "017F22E2-79B0-7CC3-98C4-DC0C0C07398F";
    assert_eq!(found.to_string(), printed.to_lowercase());

    // And back: the first 48 bits are the time, and the printed text is the same id.
    assert_eq!(found.as_u128() >> 80, u128::from(MS));
    assert_eq!(printed.parse(), Ok(found));

    // Version and variant stand fast, whatever the chance.
    let [mut high, mut low] = [chance; 2];
    (high[0], high[2]) = (high[0] | 0xf0, high[2] | 0xc0);
    (low[0], low[2]) = (low[0] & 0x0f, low[2] & 0x3f);
    assert_eq!([uuid_v7(MS, &high), uuid_v7(MS, &low)], [found; 2]);
}

/// RFC 9562, section 6.11 (M): ids of version 7 sort by their time, and so do their texts.
#[test]
fn later_ids_sort_after_earlier_ones() {
    let times = [
        0,
        1,
        255,
        256,
        1_645_557_742_000,
        1_645_557_742_001,
        (1 << 48) - 1,
    ];
    let ids = times.map(|ms| uuid_v7(ms, &[if ms % 2 == 0 { 0xff } else { 0 }; 10]));
    assert!(ids.is_sorted());
    assert!(ids.map(|id| id.to_string()).is_sorted());
}

/// RFC 4648, section 10 (S2): BASE32("fooba") is MZXW6YTB. The rest, which holds the whole alphabet of section 6: R with
/// Python's base64 3. Ours are in lower case.
#[test]
fn device_codes_are_base_32() {
    let check = |chance: [u8; 5], code: &str| {
        assert_eq!(DeviceCode::from_chance(chance).as_str(), code);
        assert_eq!(code.parse(), Ok(DeviceCode::from_chance(chance)));
    };
    check(*b"fooba", "mzxw6ytb");
    check([0; 5], "aaaaaaaa");
    check([0xff; 5], "77777777");
    check([0x00, 0x44, 0x32, 0x14, 0xc7], "abcdefgh");
    check([0x42, 0x54, 0xb6, 0x35, 0xcf], "ijklmnop");
    check([0x84, 0x65, 0x3a, 0x56, 0xd7], "qrstuvwx");
    check([0xc6, 0x75, 0xbe, 0x77, 0xdf], "yz234567");
}
