//! A rope stops a fall through devices and knots that slip at a force.

use serde::{Deserialize, Serialize};

use super::super::arrest::Stop;
use super::super::{Arrest, Fall, FallError};
use crate::quantity::check::{non_negative, positive};
use crate::quantity::{Energy, Force, Invalid, Length, Text};

/// Something that slips at a force: a belay device, a gloved hand, a rip-stitch absorber, a knot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Slip {
    /// Force at which it slips.
    #[serde(with = "Text::<Force>")]
    pub force: Force,
    /// How far it can slip.
    #[serde(with = "Text::<Length>")]
    pub travel: Length,
}

/// A fall with slip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SlipArrest {
    /// The fall; its drop holds the slip, its energy what the devices took.
    pub arrest: Arrest,
    /// The devices, in the order of the input.
    pub slips: Vec<SlipState>,
}

/// What a device has done.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SlipState {
    /// How far it slipped.
    #[serde(with = "Text::<Length>")]
    pub slipped: Length,
    /// Energy it turned into heat.
    #[serde(with = "Text::<Energy>")]
    pub energy: Energy,
    /// Whether it came to the end of its travel, and held from then on.
    pub at_end: bool,
}

/// Stops a fall through devices that slip, Eqs. (S1) and (S2). With none it is
/// [`arrest`](super::super::arrest()).
///
/// # Errors
/// Those of [`arrest`](super::super::arrest()); [`FallError::Invalid`] unless each force is above zero and
/// each travel zero or more.
///
/// # Example
/// ```
/// use tautwork::fall::{Fall, Slip, arrest_with_slip};
/// use tautwork::material::Stretch;
/// use tautwork::quantity::{ReadForce, ReadLength, Words};
///
/// let mut fall = Fall {
///     mass: 100.0.kilograms(),
///     height: 2.0.meters(),
///     rope: 1.0.meters(),
///     stretch: Stretch::axial_rigidity(1e9.newtons())?,
///     span_stiffness: None,
/// };
/// let absorber = Slip { force: 4.0.kilonewtons(), travel: 1.75.meters() };
/// // A constant brake: 981 N · 2 m / (4000 N − 981 N) = 0.65 m.
/// let stopped = arrest_with_slip(&fall, &[absorber])?;
/// assert!((stopped.slips[0].slipped.in_meters() - 0.6499).abs() < 1e-4);
/// assert!((stopped.arrest.impact_force.in_kilonewtons() - 4.0).abs() < 1e-12);
/// fall.mass = 0.0.kilograms();
/// assert!(arrest_with_slip(&fall, &[absorber]).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn arrest_with_slip(fall: &Fall, slips: &[Slip]) -> Result<SlipArrest, FallError> {
    let devices = in_order(slips)?;
    let mut stop = Stop::new(fall)?;
    let mut states = vec![(0.0, 0.0, false); slips.len()];
    let mut held_at_n = None;
    for device in devices {
        let (slipped_m, at_end) = stop.slip(device.force_n, device.travel_m);
        if slipped_m > 0.0 || at_end {
            states[device.index] = (slipped_m, device.force_n, at_end);
        }
        if !at_end {
            held_at_n = (slipped_m > 0.0).then_some(device.force_n);
            break;
        }
    }
    let arrest = match held_at_n {
        Some(force_n) => stop.report(force_n)?,
        None => stop.arrest()?,
    };
    let slips = states
        .into_iter()
        .map(|(slipped_m, force_n, at_end)| SlipState::new(slipped_m, force_n, at_end))
        .collect::<Result<_, _>>()?;
    Ok(SlipArrest { arrest, slips })
}

impl SlipState {
    /// What a device at its force has done.
    pub(in super::super) fn new(
        slipped_m: f64,
        force_n: f64,
        at_end: bool,
    ) -> Result<Self, FallError> {
        Ok(Self {
            slipped: FallError::finite("slipped", slipped_m)?,
            energy: FallError::finite("energy", slipped_m * force_n)?,
            at_end,
        })
    }
}

/// The devices in SI, in the order of their force.
pub(in super::super) fn in_order(slips: &[Slip]) -> Result<Vec<Device>, Invalid> {
    let mut devices = Vec::with_capacity(slips.len());
    for (index, slip) in slips.iter().enumerate() {
        let within = |invalid: Invalid| invalid.within(&format!("slips[{index}]"));
        let force_n = positive("force", slip.force).map_err(within)?;
        let travel_m = non_negative("travel", slip.travel).map_err(within)?;
        devices.push(Device { index, force_n, travel_m, until_m: 0.0 });
    }
    devices.sort_by(|a, b| a.force_n.total_cmp(&b.force_n));
    let mut until_m = 0.0;
    for device in &mut devices {
        until_m += device.travel_m;
        device.until_m = until_m;
    }
    Ok(devices)
}

/// A device in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in super::super) struct Device {
    /// Its place in the input.
    pub index: usize,
    pub force_n: f64,
    pub travel_m: f64,
    /// Travel of this one and all before it.
    pub until_m: f64,
}
