//! Rules of thumb.

use tautwork::line::{ElasticLine, rules_chart};

use super::solve::Series;
use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    call!(line::rules_of_thumb(&line: ElasticLine, load)),
    Call {
        name: "line.rules_chart",
        arguments: Some(&["line", "standing_n", "load_n"]),
        run: chart,
    },
];

fn chart(args: &mut Args) -> Result<Value, Failure> {
    let line: ElasticLine = args.plain("line")?;
    let [standing, load] =
        ["standing_n", "load_n"].map(|name| args.plain::<Series>(name).map(Series::into_vec));
    answer(&rules_chart(&line, &standing?, &load?)?)
}
