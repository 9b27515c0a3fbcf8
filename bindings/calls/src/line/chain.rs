//! A chain anywhere along it, and wind on a line.

use tautwork::line::{Chain, Gust};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::chain_at(&chain: Chain, series s_m)),
    call!(line::chain_at_x(&chain: Chain, series x_m)),
    call!(line::wind_load(&gust: Gust, [direction]) => Texts),
];
