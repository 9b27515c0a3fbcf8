//! Questions turned round, and many jumps.

use tautwork::swing::{Jump, Place, Spread, Winds};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(swing::envelope(&jump: Jump, &spread: Spread)),
    call!(swing::exits_that_clear(&jump: Jump, to: Place, required, count: usize)),
    call!(swing::highest_exit_for_peak(&jump: Jump, peak)),
    call!(swing::rope_length_for_lowest(&jump: Jump, lowest)),
    call!(swing::wind_sweep(&jump: Jump, &winds: Winds)),
];
