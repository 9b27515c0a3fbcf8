//! Calls of `pulley`.

use tautwork::pulley::{
    Friction, Haul, Ordinary, PulleyError, System, WayBack, WayPlaces, ordinary,
};
use tautwork::swing::Jump;

use crate::{Call, Failure, Kind, args};

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
    call!(pulley::tackle(&parts: Vec<usize>, redirect: bool, friction: Friction)),
    call!(pulley::capstan_ratio(mu, wrap) => Text),
    call!(pulley::capstan_hold(load, mu, wrap)),
    call!(pulley::implied_mu(ratio, wrap) => Text),
    call!(pulley::haul_work { &Haul }),
    call!(pulley::compare_hauls(&haul: Haul, &systems: Vec<Ordinary>)),
    call!(pulley::way_back { &WayBack }),
    call!(pulley::haul_fails(&jump: Jump, &way: WayPlaces, at: usize)),
];

impl From<PulleyError> for Failure {
    fn from(error: PulleyError) -> Self {
        match error {
            PulleyError::Invalid(invalid) => invalid.into(),
            PulleyError::Line(line) => line.into(),
            PulleyError::Swing(swing) => (*swing).into(),
            PulleyError::Residual { residual, .. } => {
                Self::new(Kind::NoConvergence, &error).with("residual", &residual)
            }
            other => Self::model(&other),
        }
    }
}
