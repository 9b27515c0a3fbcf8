//! Frequencies and shapes of lines, the bounce of a person, and tension from a timed period.

use tautwork::line::{BouncedLine, ElasticLine, PluckedLine, VibratingChain};

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::string_modes(length, tension, linear_density, count: usize)),
    call!(line::irvine_caughey(lambda_squared, count: usize)),
    call!(line::cable_modes(&line: ElasticLine, count: usize)),
    call!(line::chain_modes { &VibratingChain }),
    call!(line::bounce(&line: ElasticLine, at, mass)),
    call!(line::tension_from_pluck { &PluckedLine }),
    call!(line::tension_from_bounce { &BouncedLine }),
];
