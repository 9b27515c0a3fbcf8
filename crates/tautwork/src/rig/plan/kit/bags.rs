//! Things in bags.

use serde::{Deserialize, Serialize};

use super::KitPiece;
use super::pieces::mass_kg;
use crate::quantity::{Mass, Quantity, Text};
use crate::rig::{RigError, Side};

/// A bag.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KitBag {
    /// Side it goes to.
    pub side: Side,
    /// Number on that side, from one.
    pub number: u32,
    /// Mass of what is in it.
    #[serde(with = "Text::<Mass>")]
    pub mass: Mass,
    /// What is in it.
    pub things: Vec<BagThing>,
    /// Whether it holds one thing that is heavier than the limit.
    pub over: bool,
}

/// Equal things in a bag.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BagThing {
    /// Name.
    pub name: String,
    /// How many.
    pub count: u32,
}

/// Most bags for one side: more is a mistake in the limit.
const MAX_BAGS: usize = 1000;

/// Packs the things of a side, first fit by falling mass, Eq. (K7).
pub(super) fn pack(
    side: Side,
    pieces: &[KitPiece],
    limit: Option<Mass>,
) -> Result<Vec<KitBag>, RigError> {
    let limit_kg = limit.map_or(f64::INFINITY, Quantity::si);
    let mut order: Vec<&KitPiece> = pieces.iter().filter(|p| p.side == side).collect();
    order.sort_by(|a, b| mass_kg(b.mass).total_cmp(&mass_kg(a.mass)));
    let mut bags: Vec<KitBag> = Vec::new();
    for piece in order {
        let one_kg = mass_kg(piece.mass);
        let mut left = piece.count;
        for bag in bags.iter_mut().filter(|bag| !bag.over) {
            left -= put(bag, piece, one_kg, left, limit_kg);
        }
        while left > 0 {
            if bags.len() == MAX_BAGS {
                let reason =
                    format!("more than {MAX_BAGS} bags for one side: bag_mass is too small");
                return Err(RigError::unsolved("kit", &reason));
            }
            let number = u32::try_from(bags.len() + 1).unwrap_or(u32::MAX);
            let mut bag = KitBag {
                side,
                number,
                mass: Mass::from_si(0.0),
                things: Vec::new(),
                over: one_kg > limit_kg,
            };
            let most_kg = if bag.over { one_kg } else { limit_kg };
            left -= put(&mut bag, piece, one_kg, left, most_kg);
            bags.push(bag);
        }
    }
    Ok(bags)
}

/// Puts as many of `left` equal things into a bag as it holds, and says how many.
fn put(bag: &mut KitBag, piece: &KitPiece, one_kg: f64, left: u32, limit_kg: f64) -> u32 {
    let room_kg = limit_kg - bag.mass.si();
    // A sum of masses may miss its limit by rounding.
    let fit = if one_kg > 0.0 { (room_kg / one_kg + 1e-9).floor() } else { f64::INFINITY };
    // At most the count, which is a u32.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let count = fit.clamp(0.0, f64::from(left)) as u32;
    if count > 0 {
        bag.mass += Mass::from_si(f64::from(count) * one_kg);
        bag.things.push(BagThing { name: piece.name.clone(), count });
    }
    count
}
