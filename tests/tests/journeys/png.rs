//! A small picture file, written by the test itself: PNG (ISO/IEC 15948) with its data stored, not compressed (RFC 1950, RFC 1951).

use std::path::Path;

use haulwren_tests::browser::{Failure, Outcome};

/// Width and height of the picture.
pub const SIZE: (u32, u32) = (96, 72);

/// Writes a picture of a jug, more or less: a dark shape on a light ground.
pub fn write(path: &Path) -> Outcome<()> {
    std::fs::write(path, picture()).map_err(Failure::system("cannot write a picture"))
}

fn picture() -> Vec<u8> {
    let (width, height) = SIZE;
    let mut rows = Vec::new();
    for y in 0..height {
        // Each row says first that it is not filtered.
        rows.push(0);
        for x in 0..width {
            let is_jug = (30..66).contains(&x) && (14..62).contains(&y);
            let is_handle = (66..80).contains(&x) && (22..26).contains(&(y % 28));
            rows.extend(if is_jug || is_handle {
                [58, 74, 110]
            } else {
                [226, 214, 190]
            });
        }
    }
    let mut head = Vec::new();
    head.extend(width.to_be_bytes());
    head.extend(height.to_be_bytes());
    // Eight bits for each of red, green and blue; the only compression, filter and no interlacing.
    head.extend([8, 2, 0, 0, 0]);
    let mut file = b"\x89PNG\r\n\x1a\n".to_vec();
    chunk(&mut file, *b"IHDR", &head);
    chunk(&mut file, *b"IDAT", &stored(&rows));
    chunk(&mut file, *b"IEND", &[]);
    file
}

fn chunk(file: &mut Vec<u8>, name: [u8; 4], data: &[u8]) {
    let length = u32::try_from(data.len()).unwrap_or(u32::MAX);
    file.extend(length.to_be_bytes());
    let from = file.len();
    file.extend(name);
    file.extend(data);
    let sum = cyclic_sum(&file[from..]);
    file.extend(sum.to_be_bytes());
}

/// The data in stored blocks, between the two bytes of the head and the sum.
fn stored(data: &[u8]) -> Vec<u8> {
    let mut stream = vec![0x78, 0x01];
    let mut blocks = data.chunks(0x7fff).peekable();
    while let Some(block) = blocks.next() {
        let length = u16::try_from(block.len()).unwrap_or(u16::MAX);
        stream.push(u8::from(blocks.peek().is_none()));
        stream.extend(length.to_le_bytes());
        stream.extend((!length).to_le_bytes());
        stream.extend(block);
    }
    let (mut one, mut other) = (1_u32, 0_u32);
    for byte in data {
        one = (one + u32::from(*byte)) % 65521;
        other = (other + one) % 65521;
    }
    stream.extend((other << 16 | one).to_be_bytes());
    stream
}

fn cyclic_sum(data: &[u8]) -> u32 {
    let mut sum = u32::MAX;
    for byte in data {
        sum ^= u32::from(*byte);
        for _ in 0..8 {
            sum = if sum & 1 == 1 {
                sum >> 1 ^ 0xedb8_8320
            } else {
                sum >> 1
            };
        }
    }
    !sum
}
