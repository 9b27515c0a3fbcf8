//! Exact first derivatives of lines and chains.

use tautwork::line::{Chain, ElasticLine};

use crate::Call;

pub(crate) const CALLS: &[Call] =
    &[call!(line::elastic_derivatives { &ElasticLine }), call!(line::chain_derivatives { &Chain })];
