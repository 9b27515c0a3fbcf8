//! The one table of calls behind the Python and JavaScript bindings and the conformance tests.
//!
//! A call is a public function of the core under the name `model.function`. It takes named
//! arguments as a JSON object, where a quantity is text or `{ "value", "unit" }`, and gives back a
//! tree in which every quantity is `{ value, unit }`. There is no physics here: `call!` reads the
//! arguments, calls the core and hands on the result or the [`Failure`].

#[macro_use]
mod table;

mod amount;
mod args;
mod bytes;
mod failure;
mod series;

mod anchor;
mod fall;
mod line;
mod material;
mod pulley;
mod rig;
mod swing;

use std::collections::BTreeMap;
use std::sync::OnceLock;

pub use amount::Amount;
pub use args::Args;
pub use bytes::bytes_text;
pub use ciborium::Value;
pub use failure::{Failure, Kind};
pub use rig::loss_table;
pub use series::is_series;

/// One function of the core, callable by name.
#[derive(Debug)]
pub struct Call {
    /// `model.function`.
    pub name: &'static str,
    /// Names of the arguments; `None` if the whole mapping is the one input struct.
    pub arguments: Option<&'static [&'static str]>,
    // A line that `call!` cannot write gives this function itself.
    run: fn(&mut Args) -> Result<Value, Failure>,
}

impl Call {
    /// Runs the call on named arguments.
    ///
    /// # Errors
    /// [`Failure`] names the argument at fault, or says why the model has no answer.
    pub fn run(&self, arguments: serde_json::Value) -> Result<Value, Failure> {
        (self.run)(&mut Args::new(arguments, self.arguments)?)
    }
}

/// The calls of every model: one line for each model, or for each topic of one.
const MODELS: &[&[Call]] = &[
    anchor::adjust::CALLS,
    anchor::fixing::CALLS,
    anchor::frame::CALLS,
    anchor::legs::CALLS,
    anchor::system::CALLS,
    fall::damped::CALLS,
    fall::dropped::CALLS,
    fall::leash::CALLS,
    fall::redirect::CALLS,
    fall::slip::CALLS,
    fall::stop::CALLS,
    line::building::CALLS,
    line::chain::CALLS,
    line::derivatives::CALLS,
    line::recoil::CALLS,
    line::rings::CALLS,
    line::rules::CALLS,
    line::solve::CALLS,
    line::tables::CALLS,
    line::tensioning::CALLS,
    line::walk::CALLS,
    line::vibration::CALLS,
    material::cordage::CALLS,
    material::gear::CALLS,
    material::strength::CALLS,
    material::wear::CALLS,
    pulley::capstan::CALLS,
    pulley::diagram::CALLS,
    pulley::haul::CALLS,
    pulley::lift::CALLS,
    pulley::loss::CALLS,
    pulley::lower::CALLS,
    pulley::network::CALLS,
    pulley::way::CALLS,
    rig::CALLS,
    swing::apart::CALLS,
    swing::before::CALLS,
    swing::edge::CALLS,
    swing::full::CALLS,
    swing::jump::CALLS,
    swing::seek::CALLS,
    swing::terrain::CALLS,
];

/// Every call, in order of its name.
pub fn all() -> impl Iterator<Item = &'static Call> {
    table().values().copied()
}

/// Runs the call of this name.
///
/// # Errors
/// As [`Call::run`]; also if there is no such call.
pub fn run(name: &str, arguments: serde_json::Value) -> Result<Value, Failure> {
    let call = table().get(name).ok_or_else(|| Failure::invalid("call", name, "a known call"))?;
    call.run(arguments)
}

fn table() -> &'static BTreeMap<&'static str, &'static Call> {
    static TABLE: OnceLock<BTreeMap<&'static str, &'static Call>> = OnceLock::new();
    TABLE.get_or_init(|| MODELS.iter().copied().flatten().map(|call| (call.name, call)).collect())
}
