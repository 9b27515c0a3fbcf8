//! Raised frames.

use tautwork::anchor::{Frame, LiftPlace, Pole};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(anchor::buckling(&pole: Pole, length)),
    call!(anchor::frame_forces { &Frame }),
    call!(anchor::frame_lift(&frame: Frame, &rope: String, &places: Vec<LiftPlace>)),
    call!(anchor::frame_window(&frame: Frame, &rope: String)),
    call!(anchor::lose_guy(&frame: Frame, &guy: String)),
];
