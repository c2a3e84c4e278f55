//! The link that carries a whole job: the address of the page, and behind its `#` the job's file, packed.
//!
//! `#/link/1.` is followed by the base64url text (RFC 4648, section 5, without padding) of four bytes of
//! CRC-32 over the file's text, highest first, and the text itself as raw deflate (RFC 1951). Deflate alone
//! would not notice a letter that was changed on the way; the sum does.
//!
//! The number is the link's version: it says which dictionary the packing starts from. Every job names the
//! same fields and the same usual choices, so they stand in a text that both sides know, and a link of one
//! piece is short enough for a QR code that a phone reads. What is inside is the file of [`mod@file`], with
//! a version of its own.
//!
//! No server ever sees what stands behind the `#`. Whoever makes a link for a stranger may be careless or
//! mean harm, so reading is bounded before it starts and ends in the same strict reader as a file.

use super::sum::crc32;
use crate::job::Job;
use crate::job::file::{self, FileError};
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, TDEFLStatus, compress_to_output, create_comp_flags_from_zip_params,
};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};
use std::fmt;

/// Characters of a link at most. RFC 9110, section 4.1, asks whoever passes on addresses to support at
/// least 8000 octets; beyond that a mail program or a messenger may cut one off.
pub const MOST_LINK_CHARACTERS: usize = 8000;

/// Bytes that any link may unpack to. Copies of a piece pack to almost nothing, so a short link can hold
/// an honest job of this size.
const ALWAYS_ALLOWED: usize = 64 << 10;

/// Bytes that each packed byte may unpack to beyond [`ALWAYS_ALLOWED`]. Jobs pack to between a fifth and
/// a twentieth; deflate itself goes up to a thousandth.
const MOST_SWELLING: usize = 50;

/// What stands between the `#` and the version.
const MARK: &str = "/link/";

/// What packing starts from, by version. None of them is ever changed: a link that is out in the world
/// needs the one that it was made with. A better one is added behind them, as the next version.
const DICTIONARIES: [&str; 1] = [include_str!("link-1.txt")];

/// Bytes of the sum in front of the packed text.
const SUM: usize = 4;

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// Why there is no link, or no job in one. Its words say what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkError {
    /// The job does not fit in a link that arrives everywhere.
    TooMuch {
        /// Characters its link would have.
        characters: usize,
    },
    /// The job's text repeats itself so much that its link would be refused as [`Swells`](Self::Swells).
    Repeats,
    /// A link longer than any that this program makes.
    TooLong {
        /// Its characters behind the `#`.
        characters: usize,
    },
    /// A link that unpacks to more than a job of its length can be.
    Swells {
        /// The bytes it was allowed.
        most: usize,
    },
    /// The end is missing.
    CutShort,
    /// Something was changed, added or lost on the way.
    Damaged,
    /// Made by a later version of this program.
    Newer {
        /// The link's version.
        found: u32,
        /// The highest version this program reads.
        highest: usize,
    },
    /// What it carries cannot be read.
    File(FileError),
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooMuch { characters } => write!(
                f,
                "This job is too long for a link: it would have {characters} characters, and some programs cut off \
                 links of more than {MOST_LINK_CHARACTERS}. Send the file instead."
            ),
            Self::Repeats => f.write_str(
                "This job is too long for a link: much of it is the same text over and over. Send the file instead.",
            ),
            Self::TooLong { characters } => write!(
                f,
                "This link is longer than any that Pourwright makes: {characters} characters, and at most \
                 {MOST_LINK_CHARACTERS} are read. Have the job sent as a file."
            ),
            Self::Swells { most } => write!(
                f,
                "This link unpacks to more than {} KiB, which no job of its length does. It was not opened. Have the \
                 job sent as a file.",
                most / 1024
            ),
            Self::CutShort => f.write_str(
                "This link was cut short: its end is missing. Copy it anew and whole, or have the job sent as a file.",
            ),
            Self::Damaged => f.write_str(
                "This link was changed on its way, so the job in it cannot be trusted. Have it sent again, or have the \
                 job sent as a file.",
            ),
            Self::Newer { found, highest } => write!(
                f,
                "This link was made by a newer Pourwright: its version is {found}, and {highest} is the highest known \
                 here. Reload the page while online to update it, then open the link again."
            ),
            Self::File(why) => why.fmt(f),
        }
    }
}

impl std::error::Error for LinkError {}

/// The link that carries `job` to the page at the address `page`; whatever stands behind a `#` there is
/// left out.
///
/// # Errors
/// [`LinkError::TooMuch`], [`LinkError::Repeats`]; every link that is made can be read.
pub fn share_link(job: &Job, page: &str) -> Result<String, LinkError> {
    let text = file::write(job);
    let packed = pack(text.as_bytes());
    if text.len() > allowed(packed.len()) {
        return Err(LinkError::Repeats);
    }
    let page = page.split('#').next().unwrap_or_default();
    let link = format!("{page}#{MARK}{}.{}", DICTIONARIES.len(), write_base64url(&packed));
    let characters = link.chars().count();
    if characters > MOST_LINK_CHARACTERS { Err(LinkError::TooMuch { characters }) } else { Ok(link) }
}

/// What stands behind the `#` of the first link to a job in a text, for [`read_link`]. Punctuation that a
/// sentence puts behind a link is left out.
pub fn find_link(text: &str) -> Option<&str> {
    let of_ours = |word: &&str| word.starts_with(MARK);
    let found = text.split_whitespace().filter_map(|word| Some(word.split_once('#')?.1)).find(of_ours)?;
    Some(found.trim_end_matches(|letter: char| !letter.is_ascii_alphanumeric() && !"-_".contains(letter)))
}

/// The job in what [`find_link`] found.
///
/// # Errors
/// Everything in [`LinkError`] but what is wrong with a job to be sent.
pub fn read_link(found: &str) -> Result<Job, LinkError> {
    let characters = found.chars().count();
    if characters > MOST_LINK_CHARACTERS {
        return Err(LinkError::TooLong { characters });
    }
    let (version, packed) =
        found.strip_prefix(MARK).and_then(|rest| rest.split_once('.')).ok_or(LinkError::CutShort)?;
    let version: u32 = version.parse().map_err(|_| LinkError::Damaged)?;
    let highest = DICTIONARIES.len();
    let dictionary = match usize::try_from(version).ok().and_then(|version| version.checked_sub(1)) {
        Some(index) => DICTIONARIES.get(index).ok_or(LinkError::Newer { found: version, highest })?,
        None => return Err(LinkError::Damaged),
    };
    let text = unpack(&read_base64url(packed)?, dictionary.as_bytes())?;
    file::read(&text).map_err(LinkError::File)
}

/// Bytes that so many packed bytes may unpack to.
fn allowed(packed: usize) -> usize {
    ALWAYS_ALLOWED.saturating_add(packed.saturating_mul(MOST_SWELLING)).min(file::MOST_BYTES)
}

/// The sum of the text and the packed text, from the newest dictionary.
fn pack(text: &[u8]) -> Vec<u8> {
    const HARDEST: i32 = 9;
    const RAW: i32 = -15;
    let mut packed = crc32(text).to_be_bytes().to_vec();
    let mut packer = CompressorOxide::new(create_comp_flags_from_zip_params(HARDEST, RAW, 0));
    // The dictionary is packed first and that is thrown away. `Sync` ends it on a whole byte, so that what
    // follows is a stream of its own that refers back into the dictionary.
    let dictionary = DICTIONARIES.last().copied().unwrap_or_default();
    compress_to_output(&mut packer, dictionary.as_bytes(), TDEFLFlush::Sync, |_| true);
    let (status, _) = compress_to_output(&mut packer, text, TDEFLFlush::Finish, |bytes| {
        packed.extend_from_slice(bytes);
        true
    });
    debug_assert_eq!(status, TDEFLStatus::Done, "a list takes all it is given");
    packed
}

/// The text that was packed, never more of it than [`allowed`].
fn unpack(packed: &[u8], dictionary: &[u8]) -> Result<String, LinkError> {
    let (sum, deflated) = packed.split_first_chunk::<SUM>().ok_or(LinkError::CutShort)?;
    let most = allowed(packed.len());
    let start = dictionary.len();
    // One byte more than is allowed, so that what is just as long as allowed can end.
    let mut unpacked = vec![0; start + most + 1];
    unpacked[..start].copy_from_slice(dictionary);
    let mut unpacker = Box::<DecompressorOxide>::default();
    let (status, read, written) =
        decompress(&mut unpacker, deflated, &mut unpacked, start, TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF);
    match status {
        TINFLStatus::HasMoreOutput => return Err(LinkError::Swells { most }),
        _ if written > most => return Err(LinkError::Swells { most }),
        TINFLStatus::Done if read == deflated.len() => {}
        TINFLStatus::FailedCannotMakeProgress | TINFLStatus::NeedsMoreInput => return Err(LinkError::CutShort),
        _ => return Err(LinkError::Damaged),
    }
    let text = unpacked.get(start..start + written).unwrap_or_default();
    if crc32(text).to_be_bytes() != *sum {
        return Err(LinkError::Damaged);
    }
    String::from_utf8(text.to_vec()).map_err(|_| LinkError::Damaged)
}

fn write_base64url(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for three in bytes.chunks(3) {
        let bits = three.iter().fold(0_u32, |bits, byte| bits << 8 | u32::from(*byte)) << (8 * (3 - three.len()));
        for place in 0..=three.len() {
            text.push(char::from(LETTERS[(bits >> (18 - 6 * place)) as usize & 63]));
        }
    }
    text
}

/// Only what [`write_base64url`] writes: no padding, no other letter, no bits that mean nothing.
fn read_base64url(text: &str) -> Result<Vec<u8>, LinkError> {
    let mut bytes = Vec::with_capacity(text.len() / 4 * 3 + 2);
    for four in text.as_bytes().chunks(4) {
        let mut bits = 0_u32;
        for letter in four {
            let value = LETTERS.iter().position(|known| known == letter).ok_or(LinkError::Damaged)?;
            bits = bits << 6 | u32::try_from(value).map_err(|_| LinkError::Damaged)?;
        }
        bits <<= 6 * (4 - four.len());
        let whole = four.len() * 6 / 8;
        let [_, read @ ..] = bits.to_be_bytes();
        let (read, rest) = read.split_at(whole);
        if whole == 0 {
            return Err(LinkError::CutShort);
        }
        // The last letters of a whole link fill up with nothing.
        if rest.iter().any(|byte| *byte != 0) {
            return Err(LinkError::CutShort);
        }
        bytes.extend_from_slice(read);
    }
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10, without the padding; the last one shows the two letters of section 5.
    #[test]
    fn base64url_is_that_of_the_standard() {
        let vectors = [("", ""), ("f", "Zg"), ("fo", "Zm8"), ("foo", "Zm9v"), ("foob", "Zm9vYg"), ("fooba", "Zm9vYmE")];
        for (plain, written) in vectors {
            assert_eq!(write_base64url(plain.as_bytes()), written);
            assert_eq!(read_base64url(written), Ok(plain.as_bytes().to_vec()));
        }
        assert_eq!(write_base64url(&[0xfb, 0xff]), "-_8");
        assert_eq!(read_base64url("Zh"), Err(LinkError::CutShort), "bits that mean nothing: letters are missing");
        assert_eq!(read_base64url("Zg=="), Err(LinkError::Damaged), "padding");
        assert_eq!(read_base64url("Zm9vY"), Err(LinkError::CutShort), "six bits make no byte");
    }

    /// A link that is out in the world needs the dictionary that it was made with.
    #[test]
    fn no_dictionary_was_changed() {
        assert_eq!(DICTIONARIES.map(|text| crc32(text.as_bytes())), [0x3801_602f]);
    }

    /// One packer's word is not enough: without a dictionary, what is unpacked is a stored block as RFC 1951,
    /// section 3.2.4, has it.
    #[test]
    fn a_stored_block_is_unpacked() {
        let mut packed = crc32(b"67").to_be_bytes().to_vec();
        packed.extend([0x01, 0x02, 0x00, 0xfd, 0xff, b'6', b'7']);
        assert_eq!(unpack(&packed, b""), Ok("67".to_owned()));
    }

    #[test]
    fn a_bomb_is_refused_at_the_byte() {
        let stream = |length: usize| {
            let text = vec![b' '; length];
            let mut packed = crc32(&text).to_be_bytes().to_vec();
            packed.extend(miniz_oxide::deflate::compress_to_vec(&text, 9));
            packed
        };
        let most = allowed(stream(ALWAYS_ALLOWED).len());
        // So dull a text packs to nearly the same length whatever its own is.
        let longest = (most - 300..).find(|length| length + 1 > allowed(stream(length + 1).len()));
        let longest = longest.expect("there is an end to what is allowed");
        assert_eq!(unpack(&stream(longest), b"").map(|text| text.len()), Ok(longest));
        let refused = stream(longest + 1);
        assert_eq!(unpack(&refused, b""), Err(LinkError::Swells { most: allowed(refused.len()) }));
        assert!(matches!(unpack(&stream(10 << 20), b""), Err(LinkError::Swells { .. })));
    }
}
