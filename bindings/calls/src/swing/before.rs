//! Before the jump.

use tautwork::swing::{Jump, Tether, step_off};

use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    Call { name: "swing.step_off", arguments: Some(&["jump", "tether"]), run: off },
    call!(swing::waiting { &Jump }),
];

fn off(args: &mut Args) -> Result<Value, Failure> {
    let jump: Jump = args.plain("jump")?;
    let tether: Option<Tether> = args.plain("tether")?;
    answer(&step_off(&jump, tether.as_ref())?)
}
