//! The sums of products in which nearly all of the time of a solution goes. They are written out, since the worker is
//! optimised for size and its compiler unrolls nothing by itself: several sums side by side wait for each other less.

/// The product of two rows of one length.
pub(super) fn dot(one: &[f64], other: &[f64]) -> f64 {
    let (ones, rest) = one.as_chunks::<4>();
    let (others, other_rest) = other.as_chunks::<4>();
    let [mut a, mut b, mut c, mut d] = [0.0; 4];
    for (one, other) in ones.iter().zip(others) {
        a += one[0] * other[0];
        b += one[1] * other[1];
        c += one[2] * other[2];
        d += one[3] * other[3];
    }
    let rest: f64 = rest.iter().zip(other_rest).map(|(one, other)| one * other).sum();
    a + b + (c + d) + rest
}

/// The products of a row with four others, which stand side by side.
pub(super) fn dot_four(row: &[f64], others: &[[f64; 4]]) -> [f64; 4] {
    let [mut a, mut b, mut c, mut d] = [0.0; 4];
    for (number, values) in row.iter().zip(others) {
        a += number * values[0];
        b += number * values[1];
        c += number * values[2];
        d += number * values[3];
    }
    [a, b, c, d]
}

/// The nine products of three rows with three others, all of one length.
pub(super) fn dots([a, b, c]: [&[f64]; 3], [d, e, f]: [&[f64]; 3]) -> [[f64; 3]; 3] {
    let [mut ad, mut ae, mut af] = [0.0; 3];
    let [mut bd, mut be, mut bf] = [0.0; 3];
    let [mut cd, mut ce, mut cf] = [0.0; 3];
    for ((((a, b), c), (d, e)), f) in a.iter().zip(b).zip(c).zip(d.iter().zip(e)).zip(f) {
        ad += a * d;
        ae += a * e;
        af += a * f;
        bd += b * d;
        be += b * e;
        bf += b * f;
        cd += c * d;
        ce += c * e;
        cf += c * f;
    }
    [[ad, ae, af], [bd, be, bf], [cd, ce, cf]]
}

/// Adds so many times a row to another one.
pub(super) fn add(times: f64, row: &[f64], sum: &mut [f64]) {
    sum.iter_mut().zip(row).for_each(|(sum, value)| *sum += times * value);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn products_of_rows_of_every_length() {
        for length in 0..10 {
            let row = |by: usize| (0..length).map(|k| ((k * by) % 7) as f64 - 2.0).collect::<Vec<_>>();
            let plain = |one: &[f64], other: &[f64]| (0..length).map(|k| one[k] * other[k]).sum::<f64>();
            let rows = [2, 3, 4, 5, 6, 8].map(row);
            let [a, b, c, d, e, f] = rows.each_ref().map(Vec::as_slice);
            assert_eq!(dot(a, b), plain(a, b));
            let lanes: Vec<[f64; 4]> = (0..length).map(|k| [b[k], c[k], d[k], e[k]]).collect();
            assert_eq!(dot_four(a, &lanes), [b, c, d, e].map(|other| plain(a, other)));
            assert_eq!(dots([a, b, c], [d, e, f]), [a, b, c].map(|one| [d, e, f].map(|other| plain(one, other))));
            let mut sum = b.to_vec();
            add(2.0, a, &mut sum);
            assert!((0..length).all(|k| sum[k] == b[k] + 2.0 * a[k]));
        }
    }
}
