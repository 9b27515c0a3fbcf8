//! Whether what is in the store covers the kit.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::cuts::{CutFrom, CutPiece, Rope, assign};
use super::inventory::{Stock, read};
use super::{KitList, KitPiece};
use crate::quantity::{Force, Length, Quantity, show};
use crate::rig::plan::table::Table;
use crate::rig::{RigError, Side};

/// What the store covers.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct KitCheck {
    /// Whether anything is not covered.
    pub falls_short: bool,
    /// In plain words.
    pub verdict: String,
    /// Each thing of the kit.
    pub needs: Vec<NeedCheck>,
    /// Which stock rope gives which pieces.
    pub cuts: Vec<CutFrom>,
    /// The same for people: a table of needs and one of cuts, which a report can take in.
    pub tables: Vec<Table>,
}

/// Whether the store covers a thing of the kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct NeedCheck {
    /// Its name.
    pub name: String,
    /// Its kind.
    pub kind: String,
    /// Side where it is needed.
    pub side: Side,
    /// How many are needed.
    pub needed: u32,
    /// How many of them are there.
    pub covered: u32,
    /// In plain words, with what covers it or why nothing does.
    pub answer: String,
    /// Whether some are not covered.
    pub falls_short: bool,
}

/// Most pieces of cordage of one kind: more is a mistake.
const MAX_CUTS: usize = 5000;

/// Holds an inventory, a CSV text, against the kit, Eq. (K8) and (K9).
///
/// # Errors
/// [`RigError::Inventory`] with every mistake of the CSV, each with its line and column.
///
/// # Example
/// ```
/// use tautwork::rig::{kit_check, plan_text};
/// let plan = plan_text(include_str!("../../../../../../examples/kestrel-gap.toml"))?;
/// let store = include_str!("../../../../../../examples/kestrel-gap.kit.csv");
/// assert!(kit_check(&plan.kit, store)?.cuts.iter().any(|cut| cut.kind == "10 mm dynamic"));
/// let error = kit_check(&plan.kit, "kind,lenght\nx,70").unwrap_err();
/// assert_eq!(error.mistakes()[0].message, "\"lenght\" is not known here; did you mean \"length\"?");
/// # Ok::<(), tautwork::rig::RigError>(())
/// ```
pub fn kit_check(kit: &KitList, inventory: &str) -> Result<KitCheck, RigError> {
    let stock = read(inventory)?;
    let mut needs: Vec<NeedCheck> = kit.pieces.iter().map(need).collect();
    let mut cuts = Vec::new();
    let mut kinds: BTreeMap<(String, bool), Vec<usize>> = BTreeMap::new();
    for (i, piece) in kit.pieces.iter().enumerate() {
        kinds.entry((key(&piece.kind), piece.cut)).or_default().push(i);
    }
    for ((kind, cut), list) in kinds {
        let here: Vec<&Stock> = stock.iter().filter(|s| key(&s.kind) == kind).collect();
        if cut {
            cuts.extend(cordage(kit, &list, &here, &mut needs)?);
        } else {
            gear(kit, &list, &here, &mut needs);
        }
    }
    let missing: Vec<&str> =
        needs.iter().filter(|n| n.falls_short).map(|n| n.name.as_str()).collect();
    let verdict = if missing.is_empty() {
        "The store covers the kit.".to_owned()
    } else {
        format!(
            "The store does not cover {} of {}: {}.",
            missing.len(),
            needs.len(),
            missing.join(", ")
        )
    };
    let tables = vec![needs_table(&needs, &verdict), cuts_table(&cuts)];
    Ok(KitCheck { falls_short: !missing.is_empty(), verdict, needs, cuts, tables })
}

/// Kinds are the same whatever the case of their letters.
fn key(kind: &str) -> String {
    kind.trim().to_lowercase()
}

fn need(piece: &KitPiece) -> NeedCheck {
    NeedCheck {
        name: piece.name.clone(),
        kind: piece.kind.clone(),
        side: piece.side,
        needed: piece.count,
        covered: 0,
        answer: String::new(),
        falls_short: false,
    }
}

fn si<Q: Quantity>(value: Option<Q>) -> f64 {
    value.map_or(0.0, Quantity::si)
}

/// Covers pieces of one cordage from its stock ropes.
fn cordage(
    kit: &KitList,
    list: &[usize],
    here: &[&Stock],
    needs: &mut [NeedCheck],
) -> Result<Vec<CutFrom>, RigError> {
    let total: usize = list.iter().map(|&i| kit.pieces[i].count as usize).sum();
    if total > MAX_CUTS {
        let reason = format!("{total} pieces of one cordage; there may be at most {MAX_CUTS}");
        return Err(RigError::unsolved("kit", &reason));
    }
    let mut order: Vec<usize> = list.to_vec();
    order.sort_by(|&a, &b| si(kit.pieces[b].length).total_cmp(&si(kit.pieces[a].length)));
    let owner: Vec<usize> =
        order.iter().flat_map(|&i| std::iter::repeat_n(i, kit.pieces[i].count as usize)).collect();
    let pieces: Vec<Rope> = owner
        .iter()
        .map(|&i| Rope {
            length_m: si(kit.pieces[i].length),
            strength_n: si(kit.pieces[i].strength),
        })
        .collect();
    let usable = here.iter().filter(|s| !s.retired);
    let ropes: Vec<&Stock> =
        usable.flat_map(|s| std::iter::repeat_n(*s, s.count as usize)).collect();
    let stock: Vec<Rope> =
        ropes.iter().map(|s| Rope { length_m: si(s.length), strength_n: si(s.strength) }).collect();
    let assignment = assign(&pieces, &stock);
    let mut cuts: Vec<Option<CutFrom>> = vec![None; ropes.len()];
    for (&i, from) in owner.iter().zip(&assignment.from) {
        let Some(s) = *from else { continue };
        needs[i].covered += 1;
        let (piece, rope) = (&kit.pieces[i], ropes[s]);
        let length = piece.length.unwrap_or(Length::from_si(0.0));
        let whole = rope.length.unwrap_or(length);
        let cut = cuts[s].get_or_insert_with(|| CutFrom {
            stock: rope.name.clone(),
            kind: rope.kind.clone(),
            length: whole,
            pieces: Vec::new(),
            left: whole,
        });
        // A piece of exactly the length leaves nothing, whatever the rounding.
        cut.left = Length::from_si((cut.left - length).si().max(0.0));
        cut.pieces.push(CutPiece { name: piece.name.clone(), length });
    }
    for &i in list {
        let piece = &kit.pieces[i];
        let from = cuts.iter().flatten().filter(|c| c.pieces.iter().any(|p| p.name == piece.name));
        let from: Vec<&str> = from.map(|c| c.stock.as_str()).collect();
        let more = if assignment.proved { "" } else { "; another way of cutting may cover more" };
        answer(&mut needs[i], piece, here, &from, more);
    }
    Ok(cuts.into_iter().flatten().collect())
}

/// Covers gear of one kind: who needs the most first, from the least that will do.
fn gear(kit: &KitList, list: &[usize], here: &[&Stock], needs: &mut [NeedCheck]) {
    let mut order: Vec<usize> = list.to_vec();
    let ask = |i: usize| (si(kit.pieces[i].strength), si(kit.pieces[i].length));
    order.sort_by(|&a, &b| ask(b).0.total_cmp(&ask(a).0).then(ask(b).1.total_cmp(&ask(a).1)));
    let mut left: Vec<(&Stock, u32)> =
        here.iter().filter(|s| !s.retired).map(|s| (*s, s.count)).collect();
    left.sort_by(|(a, _), (b, _)| {
        si(a.strength).total_cmp(&si(b.strength)).then(si(a.length).total_cmp(&si(b.length)))
    });
    for i in order {
        let piece = &kit.pieces[i];
        let mut from = Vec::new();
        for (stock, count) in &mut left {
            if !good_enough(piece, stock) {
                continue;
            }
            let taken = (*count).min(piece.count - needs[i].covered);
            if taken > 0 {
                *count -= taken;
                needs[i].covered += taken;
                from.push(stock.name.as_str());
            }
        }
        answer(&mut needs[i], piece, here, &from, "");
    }
}

fn strong_enough(piece: &KitPiece, stock: &Stock) -> bool {
    si(stock.strength) >= si(piece.strength)
}

fn good_enough(piece: &KitPiece, stock: &Stock) -> bool {
    strong_enough(piece, stock) && si(stock.length) >= si(piece.length) * (1.0 - 1e-9)
}

/// Says what covers a need, or why nothing does.
fn answer(need: &mut NeedCheck, piece: &KitPiece, here: &[&Stock], from: &[&str], more: &str) {
    need.falls_short = need.covered < need.needed;
    if !need.falls_short {
        need.answer = format!("from {}", from.join(", "));
        return;
    }
    let there: Vec<&&Stock> = here.iter().filter(|s| !s.retired && s.count > 0).collect();
    let retired = here.iter().any(|s| s.retired);
    let strong: Vec<&&&Stock> = there.iter().filter(|s| strong_enough(piece, s)).collect();
    let lengths = strong.iter().filter_map(|s| s.length);
    let longest = lengths.max_by(|a, b| a.si().total_cmp(&b.si()));
    let why = if there.is_empty() && retired {
        "all of this kind are retired".to_owned()
    } else if there.is_empty() {
        "none of this kind".to_owned()
    } else if strong.is_empty() {
        let best = there.iter().filter_map(|s| s.strength).max_by(|a, b| a.si().total_cmp(&b.si()));
        let needed = show(piece.strength.unwrap_or(Force::from_si(0.0)), "kN", 1);
        match best {
            Some(best) => format!("too weak: {} of {needed}", show(best, "kN", 1)),
            None => format!("no strength is written; {needed} is needed"),
        }
    } else if longest.map_or(0.0, Quantity::si) < si(piece.length) * (1.0 - 1e-9) {
        let needed = show(piece.length.unwrap_or(Length::from_si(0.0)), "m", 1);
        match longest {
            Some(longest) => {
                format!("too short: the longest is {} of {needed}", show(longest, "m", 1))
            }
            None => format!("no length is written; {needed} is needed"),
        }
    } else {
        "the rest of the stock is used up".to_owned()
    };
    let missing = need.needed - need.covered;
    need.answer = format!("SHORT: {missing} missing, {why}{more}");
}

fn needs_table(needs: &[NeedCheck], verdict: &str) -> Table {
    let head = ["what", "kind", "side", "needed", "there", "verdict"];
    let mut table = Table::new("kit_check", "The kit against the store", &head).remark(verdict);
    for need in needs {
        table.row([
            need.name.clone(),
            need.kind.clone(),
            word(need.side).to_owned(),
            need.needed.to_string(),
            need.covered.to_string(),
            need.answer.clone(),
        ]);
    }
    table
}

pub(in crate::rig::plan) fn word(side: Side) -> &'static str {
    match side {
        Side::Near => "near",
        Side::Far => "far",
    }
}

fn cuts_table(cuts: &[CutFrom]) -> Table {
    let head = ["stock", "cordage", "length", "pieces", "left"];
    let mut table = Table::new("cut_plan", "Pieces from each stock rope", &head);
    for cut in cuts {
        let pieces = cut.pieces.iter().map(|p| format!("{} {}", p.name, show(p.length, "m", 2)));
        table.row([
            cut.stock.clone(),
            cut.kind.clone(),
            show(cut.length, "m", 1),
            pieces.collect::<Vec<_>>().join(", "),
            show(cut.left, "m", 1),
        ]);
    }
    table
}
