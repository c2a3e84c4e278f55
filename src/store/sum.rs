//! A sum over a text, by which it is noticed that the text was changed.

/// The CRC-32 of RFC 1952, section 8.
pub(super) fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |sum, byte| {
        let [low, ..] = sum.to_le_bytes();
        TABLE[usize::from(low ^ byte)] ^ (sum >> 8)
    })
}

/// What each byte does to the sum, as section 8.1 has it.
const TABLE: [u32; 256] = {
    const POLYNOMIAL: u32 = 0xEDB8_8320;
    let mut table = [0; 256];
    let mut byte = 0;
    while byte < 256 {
        let mut sum = byte as u32;
        let mut bit = 0;
        while bit < 8 {
            sum = if sum & 1 == 1 { (sum >> 1) ^ POLYNOMIAL } else { sum >> 1 };
            bit += 1;
        }
        table[byte] = sum;
        byte += 1;
    }
    table
};

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms, which is the one
    /// that RFC 1952 describes.
    #[test]
    fn the_sum_is_that_of_the_standard() {
        assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
    }
}
