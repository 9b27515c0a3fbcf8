//! Whether a frame stands, by directions alone: Eq. (F5).

use nalgebra::Vector3;

/// A member whose push or pull would lessen what is left by less than this part of it does not help.
const HELPS: f64 = 1e-9;

/// What may be left of the load for a frame to stand, as part of it.
pub(super) const STANDS: f64 = 1e-9;

/// Whether a frame stands under a load, which may be none.
pub(super) fn stands(towards: &[Vector3<f64>], load_n: &Vector3<f64>) -> bool {
    let size_n = load_n.norm();
    size_n == 0.0 || left_over(towards, &(load_n / size_n)).norm() <= STANDS
}

/// What non-negative forces along `towards` leave of a unit load, at least.
///
/// Lawson and Hanson's active set: at most three members carry, each change lessens what is left, so that
/// no set comes twice. Ends also when its budget is spent, with the best it has.
pub(super) fn left_over(towards: &[Vector3<f64>], load: &Vector3<f64>) -> Vector3<f64> {
    let mut carrying: Vec<(usize, f64)> = Vec::with_capacity(3);
    let mut left = *load;
    for _ in 0..10 * towards.len() {
        let best = towards
            .iter()
            .enumerate()
            .filter(|(i, _)| carrying.iter().all(|(c, _)| c != i))
            .map(|(i, b)| (i, -b.dot(&left)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        let Some((next, _)) = best.filter(|(_, gain)| *gain > HELPS * left.norm()) else { break };
        if carrying.len() == 3 {
            break;
        }
        carrying.push((next, 0.0));
        while !carrying.is_empty() {
            let wanted = fitted(towards, &carrying, load);
            // Back from what is wanted to where the first force becomes zero.
            let part = carrying
                .iter()
                .zip(&wanted)
                .filter(|(_, w)| **w <= 0.0)
                .map(|((_, f), w)| f / (f - w))
                .fold(1.0, |part: f64, x| if x < part { x } else { part });
            for ((_, f), w) in carrying.iter_mut().zip(&wanted) {
                *f += part * (w - *f);
            }
            if wanted.iter().all(|w| *w > 0.0) {
                break;
            }
            let least = carrying
                .iter()
                .zip(&wanted)
                .enumerate()
                .filter(|(_, (_, w))| **w <= 0.0)
                .min_by(|(_, ((_, f), _)), (_, ((_, g), _))| f.total_cmp(g))
                .map(|(at, _)| at);
            let Some(least) = least else { break };
            carrying.remove(least);
        }
        left = carrying.iter().fold(*load, |left, &(i, f)| left + towards[i] * f);
    }
    left
}

/// Least squares without signs: forces of up to three members, by Gram and Schmidt done twice.
fn fitted(towards: &[Vector3<f64>], carrying: &[(usize, f64)], load: &Vector3<f64>) -> Vec<f64> {
    let n = carrying.len();
    let mut q = [Vector3::zeros(); 3];
    let mut r = [[0.0; 3]; 3];
    let mut rest = -load;
    let mut amount = [0.0; 3];
    for (k, &(i, _)) in carrying.iter().enumerate() {
        let mut column = towards[i];
        for _ in 0..2 {
            for j in 0..k {
                let part = q[j].dot(&column);
                r[j][k] += part;
                column -= q[j] * part;
            }
        }
        r[k][k] = column.norm();
        q[k] = if r[k][k] > 0.0 { column / r[k][k] } else { Vector3::zeros() };
        amount[k] = q[k].dot(&rest);
        rest -= q[k] * amount[k];
    }
    let mut x = vec![0.0; n];
    for k in (0..n).rev() {
        let known: f64 = (k + 1..n).map(|j| r[k][j] * x[j]).sum();
        x[k] = if r[k][k] > 0.0 { (amount[k] - known) / r[k][k] } else { 0.0 };
    }
    x
}
