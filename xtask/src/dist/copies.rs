//! Compressed copies beside each file, for hosts that send what lies there.

use std::io::Write as _;
use std::path::Path;

use super::{files, has_ending, load};
use crate::fail::{Done, While};

/// A file's bytes, as they are and compressed.
pub struct Size {
    /// Uncompressed.
    pub plain: usize,
    /// By gzip (RFC 1952), level 9.
    pub gzip: usize,
    /// By brotli (RFC 7932), quality 11.
    pub brotli: usize,
}

/// Writes `.br` and `.gz` beside every file; pictures stay alone, for they are compressed already.
///
/// # Errors
/// When a file cannot be read or written.
pub fn write(dist: &Path) -> Done<Vec<(String, Size)>> {
    let mut sizes = Vec::new();
    for name in files(dist)? {
        let bytes = load(dist, &name)?;
        let mut size = Size {
            plain: bytes.len(),
            gzip: bytes.len(),
            brotli: bytes.len(),
        };
        if !has_ending(&name, "png") {
            let copies = [("gz", gzip(&bytes)?), ("br", brotli(&bytes)?)];
            [size.gzip, size.brotli] = [copies[0].1.len(), copies[1].1.len()];
            for (ending, copy) in copies {
                let path = dist.join(format!("{name}.{ending}"));
                std::fs::write(path, copy).or_fail(format!("writing {name}.{ending}"))?;
            }
        }
        sizes.push((name, size));
    }
    Ok(sizes)
}

fn gzip(bytes: &[u8]) -> Done<Vec<u8>> {
    let mut out = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    out.write_all(bytes)
        .and_then(|()| out.finish())
        .or_fail("compressing by gzip")
}

/// The bytes by brotli at its best.
///
/// # Errors
/// Never for bytes in memory, but the encoder's interface allows it.
pub fn brotli(mut bytes: &[u8]) -> Done<Vec<u8>> {
    let mut out = Vec::new();
    let best = brotli::enc::BrotliEncoderParams {
        quality: 11,
        lgwin: 22,
        ..Default::default()
    };
    brotli::BrotliCompress(&mut bytes, &mut out, &best).or_fail("compressing by brotli")?;
    Ok(out)
}
