//! Any text as the line of a change: it is refused, or read; and what was read is written and read back as the same.

#![no_main]

use haulwren_core::change::Change;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    for line in data.split(|byte| *byte == b'\n') {
        let Ok(line) = std::str::from_utf8(line) else {
            continue;
        };
        let Ok(change) = Change::from_line(line) else {
            continue;
        };
        // What is stored is the file's own line; what is written anew stands fast from then on.
        let written = change.line();
        let again = Change::from_line(&written).expect("a change that was written");
        assert_eq!(again, change);
        assert_eq!(again.line(), written);
    }
});
