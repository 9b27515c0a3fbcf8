//! Rules of thumb.

use tautwork::line::ElasticLine;

use crate::Call;

pub(crate) const CALLS: &[Call] = &[
    call!(line::rules_of_thumb(&line: ElasticLine, load)),
    call!(line::rules_chart(&line: ElasticLine, series standing_n, series load_n)),
];
