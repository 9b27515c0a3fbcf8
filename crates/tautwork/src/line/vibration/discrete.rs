//! A solved chain as masses between exact elastic pieces, and its modes, Eq. (V7) to (V9).

use nalgebra::{DMatrix, DVector, SymmetricEigen, Vector3};

use crate::line::LineError;
use crate::line::links::{Link, Links};
use crate::quantity::{GRAVITY, Invalid};

/// Nodes at most: the eigenvalues of three times as many unknowns take some seconds.
pub(super) const MOST_NODES: usize = 200;

/// Free nodes of a chain at rest, with their masses and the tangent stiffness.
pub(super) struct Lumped {
    /// Rest length from the near end.
    pub s_m: Vec<f64>,
    /// Place from the near end.
    pub place_m: Vec<Vector3<f64>>,
    pub mass_kg: Vec<f64>,
    /// Three rows for each node.
    pub stiffness: DMatrix<f64>,
}

/// A mode, its shape scaled to a modal mass of 1 kg.
pub(super) struct Mode {
    pub omega2: f64,
    pub shape: Vec<Vector3<f64>>,
    /// What is left of Eq. (V8), over ω².
    pub residual: f64,
}

impl Lumped {
    /// Cuts a chain, solved with this pull on its near end, into about `segments` equal pieces.
    /// `extra` are masses at rest lengths where the chain has joints.
    pub fn new(
        links: &Links,
        pull_n: Vector3<f64>,
        extra: &[(f64, f64)],
        segments: usize,
    ) -> Result<Self, LineError> {
        let total = links.length_m();
        let mut run = Links::start(pull_n);
        let (mut s_m, mut place_m, mut mass_kg, mut pieces) = (vec![], vec![], vec![0.0], vec![]);
        let mut s = 0.0;
        for link in &links.0 {
            // A weightless piece needs no nodes: it is straight and has no mass.
            let cuts = if link.rest_m == 0.0 {
                0
            } else if link.q_n_per_m == 0.0 {
                1
            } else {
                cuts(segments, link.rest_m / total)
            };
            if s_m.len() + cuts > MOST_NODES {
                return Err(LineError::Invalid(Invalid::new(
                    "segments",
                    format!("{segments} over {} pieces and loads", links.0.len()),
                    format!("at most {MOST_NODES} pieces in all"),
                )));
            }
            let piece = Link { rest_m: link.rest_m / cuts as f64, ..link.clone() };
            let half_kg = 0.5 * link.q_n_per_m * piece.rest_m / GRAVITY;
            for _ in 0..cuts {
                pieces.push(piece.stiffness_n_per_m(&run.pull_n));
                piece.extend(&mut run);
                s += piece.rest_m;
                s_m.push(s);
                place_m.push(run.end_m);
                if let Some(last) = mass_kg.last_mut() {
                    *last += half_kg;
                }
                mass_kg.push(half_kg);
            }
            run.pull_n -= link.load_n;
        }
        // The last node is the far anchor; the first entry of the masses belongs to the near one.
        s_m.pop();
        place_m.pop();
        mass_kg.remove(0);
        mass_kg.pop();
        let mut lumped = Self { stiffness: assemble(&pieces), s_m, place_m, mass_kg };
        for &(at_m, extra_kg) in extra {
            // Masses at an anchor do not move.
            if let Some(node) = lumped.node(at_m, 1e-9 * total) {
                lumped.mass_kg[node] += extra_kg;
            }
        }
        if lumped.stiffness.iter().chain(&lumped.mass_kg).all(|x| x.is_finite()) {
            Ok(lumped)
        } else {
            Err(LineError::Overflow { result: "stiffness" })
        }
    }

    /// The node at a rest length.
    pub fn node(&self, s_m: f64, within_m: f64) -> Option<usize> {
        self.s_m.iter().position(|s| (s - s_m).abs() <= within_m)
    }

    /// All modes, the lowest first.
    pub fn modes(&self) -> Result<Vec<Mode>, LineError> {
        let n = self.mass_kg.len();
        let rows = |axes: &[usize]| -> Vec<usize> {
            (0..n).flat_map(|node| axes.iter().map(move |axis| 3 * node + axis)).collect()
        };
        // In one vertical plane along x the motion across it is a problem of its own.
        let plane = rows(&[0, 2]);
        let aside = rows(&[1]);
        let apart = plane.iter().all(|&i| aside.iter().all(|&j| self.stiffness[(i, j)] == 0.0));
        let mut modes = Vec::new();
        if apart {
            self.solve(&plane, &mut modes)?;
            self.solve(&aside, &mut modes)?;
        } else {
            self.solve(&rows(&[0, 1, 2]), &mut modes)?;
        }
        modes.sort_by(|a, b| a.omega2.total_cmp(&b.omega2));
        Ok(modes)
    }

    /// Modes among some of the rows, Eq. (V8); massless ones follow the others, Eq. (V9).
    fn solve(&self, rows: &[usize], modes: &mut Vec<Mode>) -> Result<(), LineError> {
        let overflow = || LineError::Overflow { result: "modes" };
        let (heavy, light): (Vec<usize>, Vec<usize>) =
            rows.iter().copied().partition(|row| self.mass_kg[row / 3] > 0.0);
        let part = |a: &[usize], b: &[usize]| {
            DMatrix::from_fn(a.len(), b.len(), |i, j| self.stiffness[(a[i], b[j])])
        };
        let mut stiffness = part(&heavy, &heavy);
        let follow = if light.is_empty() {
            DMatrix::zeros(0, heavy.len())
        } else {
            let mixed = part(&light, &heavy);
            let inner = part(&light, &light).cholesky().ok_or_else(overflow)?;
            let follow = -inner.solve(&mixed);
            stiffness += mixed.transpose() * &follow;
            follow
        };
        let root_mass: Vec<f64> = heavy.iter().map(|row| self.mass_kg[row / 3].sqrt()).collect();
        let scaled = DMatrix::from_fn(heavy.len(), heavy.len(), |i, j| {
            0.5 * (stiffness[(i, j)] + stiffness[(j, i)]) / root_mass[i] / root_mass[j]
        });
        if !scaled.iter().all(|x| x.is_finite()) {
            return Err(overflow());
        }
        let budget = 100 * (heavy.len() + 1);
        let eigen = SymmetricEigen::try_new(scaled.clone(), f64::EPSILON, budget);
        let eigen = eigen.ok_or(LineError::NotConverged {
            residual: scaled.norm(),
            unit: "1/s²",
            iterations: u32::try_from(budget).unwrap_or(u32::MAX),
        })?;
        for (k, &omega2) in eigen.eigenvalues.iter().enumerate() {
            let vector: DVector<f64> = eigen.eigenvectors.column(k).into_owned();
            let left = (&scaled * &vector - &vector * omega2).norm();
            let moved = DVector::from_fn(heavy.len(), |i, _| vector[i] / root_mass[i]);
            let followed = &follow * &moved;
            let mut shape = vec![Vector3::zeros(); self.mass_kg.len()];
            for (&row, x) in heavy.iter().zip(&moved).chain(light.iter().zip(&followed)) {
                shape[row / 3][row % 3] = *x;
            }
            // A chain at rest under tension has no mode without stiffness.
            if !(omega2 > 0.0 && omega2.is_finite()) {
                return Err(LineError::NotConverged {
                    residual: left,
                    unit: "1/s²",
                    iterations: u32::try_from(budget).unwrap_or(u32::MAX),
                });
            }
            modes.push(Mode { omega2, shape, residual: left / omega2 });
        }
        Ok(())
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of at most 200 pieces, and at least one"
)]
fn cuts(segments: usize, share: f64) -> usize {
    (segments as f64 * share).ceil().max(1.0) as usize
}

/// Stiffness of the inner nodes of a row of pieces.
fn assemble(pieces: &[nalgebra::Matrix3<f64>]) -> DMatrix<f64> {
    let n = pieces.len().saturating_sub(1);
    let mut k = DMatrix::zeros(3 * n, 3 * n);
    for (i, piece) in pieces.iter().enumerate() {
        // Piece i joins node i - 1 to node i.
        for (a, b, sign) in [(i, i, 1.0), (i + 1, i + 1, 1.0), (i, i + 1, -1.0), (i + 1, i, -1.0)] {
            if (1..=n).contains(&a) && (1..=n).contains(&b) {
                let mut block = k.fixed_view_mut::<3, 3>(3 * (a - 1), 3 * (b - 1));
                block += piece * sign;
            }
        }
    }
    k
}
