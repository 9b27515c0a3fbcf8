use proptest::prelude::*;

use super::bags::pack;
use super::cuts::{Rope, assign};
use super::*;
use crate::quantity::parse as quantity;
use crate::rig::{parse, plan};

const DEMO: &str = include_str!("../../../../../../examples/kestrel-gap.toml");
const STORE: &str = include_str!("../../../../../../examples/kestrel-gap.kit.csv");

fn demo(edits: &[(&str, &str)]) -> KitList {
    let short = DEMO.replace("launch_radius", "horizon = \"5 s\"\nlaunch_radius");
    let text = edits.iter().fold(short, |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    });
    plan(&parse(&text).unwrap()).unwrap().kit
}

fn piece<'a>(kit: &'a KitList, name: &str) -> &'a KitPiece {
    kit.pieces.iter().find(|p| p.name == name).unwrap_or_else(|| panic!("no {name}"))
}

fn thing(name: &str, mass_kg: f64, count: u32) -> KitPiece {
    KitPiece {
        name: name.to_owned(),
        kind: "thing".to_owned(),
        cut: false,
        side: Side::Near,
        count,
        length: None,
        made_of: String::new(),
        mass: Some(Mass::from_si(mass_kg)),
        strength: None,
        from: String::new(),
    }
}

#[test]
fn lengths_are_sums_by_hand() {
    let kit = demo(&[(
        "rest_length = \"132.4 m\"",
        "rest_length = \"132.4 m\"\ntails = [\"3 m\", \"1 m\"]\nwraps = [\"4.5 m\", \"0 m\"]",
    )]);
    let length = |name: &str| piece(&kit, name).length.unwrap().si();
    let near = |got: f64, want: f64| assert!((got - want).abs() < 1e-9, "{got} is not {want}");
    // (K1): 132.4 + 3 + 1 + 4.5; the others have 2 m at each end.
    near(length("backup"), 140.9);
    near(length("backup rope 1"), 133.2 + 4.0);
    // (K2): two strands of the distance from (-2, 1, 0.2) to the origin.
    near(length("leg to near left bolt"), 2.0 * (4.0_f64 + 1.0 + 0.04).sqrt());
    // (K3)
    near(length("left jump rope"), 72.0 + 2.4 + 1.0 + 0.3);
    near(length("tag line"), 140.0);
    // (K5) at 60 g/m.
    near(piece(&kit, "backup").mass.unwrap().si(), 0.060 * 140.9);
    assert_eq!(piece(&kit, "leg to far left bolt").side, Side::Far);
    assert_eq!(piece(&kit, "backup").side, Side::Near);
    // (K4): from the head (1.8, 0, 0.4) to the anchor (-3, 0, -1.2); three parts over a throw of 6 m.
    let haul = piece(&kit, "haul rope");
    assert!(haul.made_of.contains("in the haul system 18.00 m"), "{}", haul.made_of);
    assert!(haul.made_of.contains(&format!("{:.2} m", 4.8_f64.hypot(1.6))), "{}", haul.made_of);
    near(length("lowering rope"), 200.0);
    let given = demo(&[("bag_mass", "haul_rope = \"150 m\"\nbag_mass")]);
    near(piece(&given, "haul rope").length.unwrap().si(), 150.0);
}

#[test]
fn every_sling_connector_and_backup_of_an_anchor_is_brought() {
    let leg = "{ name = \"far right bolt\", fixing = [\"132 m\", \"-1 m\", \"-2.8 m\"], cordage = \"anchor sling\", \
               strands = 2, strength = \"22 kN\"";
    let parts = format!(
        "{leg}, part = [{{ name = \"link\", kind = \"locking connector\", strength = \"22 kN\", mass = \"85 g\", \
         length = \"0.1 m\" }}, {{ name = \"long sling\", cordage = \"anchor sling\", length = \"0.4 m\", \
         strands = 2, strength = \"22 kN\" }}]"
    );
    let backup = format!(
        "{{ name = \"far tree\", fixing = [\"140 m\", \"0 m\", \"-3 m\"], slack = \"0.5 m\", tails = \"2 m\", \
         wraps = \"3 m\", cordage = \"11 mm semi-static\", strength = \"20 kN\" }},\n    {parts}"
    );
    let kit = demo(&[(leg, &backup)]);
    let near = |name: &str, want: f64| {
        let piece = piece(&kit, name);
        assert_eq!(piece.side, Side::Far);
        assert!((piece.length.unwrap().si() - want).abs() < 1e-9, "{piece:?}");
    };
    // Both strands of what the connector and the further sling leave of the distance.
    near("leg to far right bolt", 2.0 * ((4.0_f64 + 1.0 + 0.04).sqrt() - 0.5));
    near("long sling of far right bolt", 0.8);
    near("leg to far tree", 10.0 + 0.5 + 2.0 + 3.0);
    let link = piece(&kit, "link of far right bolt");
    assert_eq!((link.count, link.kind.as_str(), link.cut), (1, "locking connector", false));
    assert!((link.mass.unwrap().si() - 0.085).abs() < 1e-12);
    assert_eq!(link.from, "anchor[1].leg[3].part[0]");
}

#[test]
fn spares_follow_the_rule_and_the_rule_is_said() {
    let kit = demo(&[]);
    // (K6): 14 + 6 connectors, one for every five; two jump ropes, one for every two.
    assert_eq!(piece(&kit, "spare locking connector").count, 4);
    let rope = piece(&kit, "spare 10 mm dynamic");
    assert_eq!((rope.count, rope.length), (1, piece(&kit, "left jump rope").length));
    assert!(kit.spares_rule.contains("for every 5 of its kind"), "{}", kit.spares_rule);
    let none = demo(&[("spare_gear_every = 5", ""), ("spare_rope_every = 2", "")]);
    assert!(none.pieces.iter().all(|p| !p.name.starts_with("spare")));
    assert!(none.spares_rule.contains("no spare piece of gear; no spare jump rope"));
}

#[test]
fn a_thing_heavier_than_a_bag_may_be_is_said() {
    let limit = Some(Mass::from_si(10.0));
    let pieces = [thing("rope", 12.0, 2), thing("connector", 0.1, 100), thing("mat", 4.0, 3)];
    let bags = pack(Side::Near, &pieces, limit).unwrap();
    let masses: Vec<_> = bags.iter().map(|b| (b.over, b.mass.si())).collect();
    // Two bags of one rope; two mats and 20 connectors; one and 60; the last 20.
    assert_eq!(bags.len(), 5, "{masses:?}");
    assert_eq!(bags.iter().filter(|b| b.over).count(), 2);
    assert!(
        pack(Side::Near, &[thing("x", 1.0, 1000), thing("y", 1.0, 1)], Some(Mass::from_si(1.0)))
            .is_err()
    );
    assert_eq!(pack(Side::Near, &pieces, None).unwrap().len(), 1);
    assert!(pack(Side::Far, &pieces, limit).unwrap().is_empty());
}

fn rope(length_m: f64) -> Rope {
    Rope { length_m, strength_n: 22e3 }
}

#[test]
fn a_way_of_cutting_is_found_where_the_longest_first_fails() {
    // 6 from 9 and 5 + 4 from 10 leave a 4; 6 + 4 from 10 and 5 + 4 from 9 leave nothing.
    let pieces = [6.0, 5.0, 4.0, 4.0].map(rope);
    let found = assign(&pieces, &[10.0, 9.0].map(rope));
    assert!(found.proved && found.from.iter().all(Option::is_some), "{found:?}");
    // A weak rope is long enough and still of no use.
    let weak = Rope { strength_n: 21e3, ..rope(100.0) };
    assert_eq!(assign(&[rope(5.0)], &[weak]).from, [None]);
    // Forty odd pieces that cannot all be had: the budget ends the search and the answer says so.
    let many: Vec<Rope> = (0..40).map(|i| rope(10.0 - 0.1 * f64::from(i))).collect();
    let stock: Vec<Rope> = (0..12).map(|i| rope(19.0 + 0.37 * f64::from(i))).collect();
    assert!(!assign(&many, &stock).proved);
}

#[test]
fn every_mistake_of_an_inventory_has_its_line_and_column() {
    let csv = "kind,length,count,strenth,retired\nrope,\"70\",2,22 kN,no\n,80 m,x,,maybe\nrope,1 m\nrope,-5 m,1,,no\n";
    let error = kit_check(&KitList::default(), csv).unwrap_err();
    let found: Vec<_> = error.mistakes().iter().map(|m| (m.line, m.path.as_str())).collect();
    let all = [
        (1, "strenth"),
        (2, "length"),
        (3, "kind"),
        (3, "count"),
        (3, "retired"),
        (4, ""),
        (5, "length"),
    ];
    assert_eq!(found, all, "{error}");
    assert!(error.to_string().contains("the inventory has 7 mistakes"), "{error}");
    assert!(kit_check(&KitList::default(), "").is_err());
    assert!(!kit_check(&KitList::default(), "kind\n").unwrap().falls_short);
}

#[test]
fn the_answer_says_why_something_is_not_covered() {
    let kit = demo(&[]);
    let why = |from: &str, to: &str, name: &str| {
        assert!(STORE.contains(from), "{from}");
        let check = kit_check(&kit, &STORE.replace(from, to)).unwrap();
        let need = check.needs.iter().find(|n| n.name == name).unwrap();
        assert!(need.falls_short == need.answer.starts_with("SHORT"));
        need.answer.clone()
    };
    assert_eq!(
        why("W1,main webbing,150 m", "W1,main webbing,120 m", "main"),
        "SHORT: 1 missing, too short: the longest is 120.0 m of 131.7 m"
    );
    assert_eq!(why("38 kN", "30 kN", "main"), "SHORT: 1 missing, too weak: 30.0 kN of 38.0 kN");
    assert_eq!(why("W1,main", "W1,other", "main"), "SHORT: 1 missing, none of this kind");
    assert_eq!(
        why("10.2 kg,no", "10.2 kg,yes", "main"),
        "SHORT: 1 missing, all of this kind are retired"
    );
    assert!(
        why("C,locking connector,,24", "C,locking connector,,20", "spare locking connector")
            .contains("4 missing")
    );
    assert_eq!(why("W1", "W9", "main"), "from W9");
}

#[test]
fn the_demo_store_lacks_one_jump_rope() {
    let check = kit_check(&demo(&[]), STORE).unwrap();
    let short: Vec<_> =
        check.needs.iter().filter(|n| n.falls_short).map(|n| n.name.as_str()).collect();
    assert_eq!(short, ["spare 10 mm dynamic"], "{}", check.verdict);
    for cut in &check.cuts {
        let used: f64 = cut.pieces.iter().map(|p| p.length.si()).sum();
        assert!((used + cut.left.si() - cut.length.si()).abs() < 1e-6 && used <= cut.length.si());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn bags_lose_nothing_and_keep_their_limit(
        things in proptest::collection::vec((0.0..30.0_f64, 1_u32..40), 0..12),
        limit_kg in 5.0..25.0_f64,
    ) {
        let pieces: Vec<_> = things.iter().enumerate().map(|(i, (kg, n))| thing(&i.to_string(), *kg, *n)).collect();
        let bags = pack(Side::Near, &pieces, Some(Mass::from_si(limit_kg))).unwrap();
        for piece in &pieces {
            let packed: u32 = bags.iter().flat_map(|b| &b.things).filter(|t| t.name == piece.name).map(|t| t.count).sum();
            prop_assert_eq!(packed, piece.count);
        }
        for bag in &bags {
            prop_assert!(bag.over || bag.mass.si() <= limit_kg * (1.0 + 1e-6));
            prop_assert!(!bag.over || bag.things[0].count == 1);
        }
    }

    // Brute force: every piece from any stock rope or from none.
    #[test]
    fn no_assignment_covers_more_pieces_or_more_length(
        lengths in proptest::collection::vec(1_u32..12, 1..6),
        stock in proptest::collection::vec((5_u32..20, 20_u32..24), 0..4),
    ) {
        let mut pieces: Vec<Rope> = lengths.iter().map(|l| rope(f64::from(*l))).collect();
        pieces.sort_by(|a, b| b.length_m.total_cmp(&a.length_m));
        let stock: Vec<Rope> = stock.iter().map(|(l, s)| Rope { length_m: f64::from(*l), strength_n: f64::from(*s) * 1e3 }).collect();
        let found = assign(&pieces, &stock);
        let score = |from: &[Option<usize>]| {
            let mut left: Vec<f64> = stock.iter().map(|s| s.length_m).collect();
            let mut covered = (0, 0.0);
            for (piece, from) in pieces.iter().zip(from) {
                let Some(s) = *from else { continue };
                left[s] -= piece.length_m;
                if left[s] < -1e-9 || stock[s].strength_n < piece.strength_n {
                    return None;
                }
                covered = (covered.0 + 1, covered.1 + piece.length_m);
            }
            Some(covered)
        };
        let mut best = (0, 0.0);
        let ways = (stock.len() + 1).pow(u32::try_from(pieces.len()).unwrap());
        for mut way in 0..ways {
            let from: Vec<Option<usize>> = pieces.iter().map(|_| {
                let s = way % (stock.len() + 1);
                way /= stock.len() + 1;
                s.checked_sub(1)
            }).collect();
            if let Some(this) = score(&from) && this > best {
                best = this;
            }
        }
        prop_assert!(found.proved);
        prop_assert_eq!(score(&found.from), Some(best));
    }

    #[test]
    fn any_text_is_an_inventory_or_a_list_of_mistakes(text in "(kind|name|length|count|retired|,|\n|\"|x|1 m|-|yes|[\\PC\n]){0,40}") {
        let kit = KitList { pieces: vec![thing("x", 1.0, 2)], ..KitList::default() };
        match kit_check(&kit, &text) {
            Ok(check) => prop_assert!(check.needs.len() == 1),
            Err(error) => prop_assert!(!error.mistakes().is_empty()),
        }
    }
}

#[test]
fn odd_numbers_are_refused_where_they_stand() {
    for bad in ["0 kg", "-1 kg", "NaN kg", "inf kg", "1 m"] {
        let text = DEMO.replace("bag_mass = \"20 kg\"", &format!("bag_mass = \"{bad}\""));
        assert!(parse(&text).is_err(), "{bad}");
    }
    let missing = DEMO.replace(
        "cordage = \"11 mm semi-static\", length = \"140 m\"",
        "cordage = \"11 mm semi static\", mass = \"1 kg\"",
    );
    let error = parse(&missing).unwrap_err().to_string();
    for part in ["did you mean", "needs a length", "leave this key out"] {
        assert!(error.contains(part), "{part}: {error}");
    }
    let mass: Mass = quantity("20 kg").unwrap();
    assert!(demo(&[]).bags.iter().all(|b| b.over || b.mass <= mass * (1.0 + 1e-9)));
}
