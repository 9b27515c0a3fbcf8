//! Exact first derivatives of lines and chains.

mod answer;
mod implicit;

pub use answer::{
    ChainDerivatives, ElasticDerivatives, ForceByChain, ForceByLine, LengthByChain, LengthByLine,
    chain_derivatives, elastic_derivatives,
};

#[cfg(test)]
mod tests;
