//! Networks of ropes and pulleys.

use tautwork::pulley::{Friction, Ordinary, System, ordinary};

use crate::{Call, args};

pub(crate) const CALLS: &[Call] = &[
    call!(pulley::solve(&system: System, load)),
    // An ordinary system always exists, so this one has no error to pass on.
    Call {
        name: "pulley.ordinary",
        arguments: Some(&["system", "friction"]),
        run: |a| {
            let system = a.plain::<Ordinary>("system")?;
            args::answer(&ordinary(system, a.plain::<Friction>("friction")?))
        },
    },
    call!(pulley::ordinary_systems() => Always),
    call!(pulley::tackle(&parts: Vec<usize>, redirect: bool, friction: Friction)),
];
