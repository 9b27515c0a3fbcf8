//! A chain anywhere along it, and wind on a line.

use tautwork::line::{Chain, Gust, chain_at, chain_at_x, wind_load};
use tautwork::quantity::{Length, Text};

use super::solve::Series;
use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    Call { name: "line.chain_at", arguments: Some(&["chain", "s_m"]), run: at },
    Call { name: "line.chain_at_x", arguments: Some(&["chain", "x_m"]), run: at_x },
    Call { name: "line.wind_load", arguments: Some(&["gust", "direction"]), run: wind },
];

fn at(args: &mut Args) -> Result<Value, Failure> {
    let chain: Chain = args.plain("chain")?;
    let s_m: Series = args.plain("s_m")?;
    answer(&chain_at(&chain, &s_m.into_vec())?)
}

fn at_x(args: &mut Args) -> Result<Value, Failure> {
    let chain: Chain = args.plain("chain")?;
    let x_m: Series = args.plain("x_m")?;
    answer(&chain_at_x(&chain, &x_m.into_vec())?)
}

fn wind(args: &mut Args) -> Result<Value, Failure> {
    let gust: Gust = args.plain("gust")?;
    let direction: [Text<Length>; 3] = args.plain("direction")?;
    answer(&wind_load(&gust, direction.map(|part| part.0))?.map(Text))
}
