//! Stretch, weight and condition of cordage.

use tautwork::material::{Condition, Cordage, Stretch, Viscoelastic};
use tautwork::quantity::{Force, Ratio, Text, Time};

use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    // Methods of the core's types, which travel as mappings here.
    Call { name: "material.strain", arguments: Some(&["stretch", "tension"]), run: strain },
    Call { name: "material.tension", arguments: Some(&["stretch", "strain"]), run: tension },
    Call {
        name: "material.tangent_rigidity",
        arguments: Some(&["stretch", "tension"]),
        run: tangent_rigidity,
    },
    Call {
        name: "material.is_past_table",
        arguments: Some(&["stretch", "tension"]),
        run: is_past_table,
    },
    Call {
        name: "material.viscoelastic_from_en892",
        arguments: Some(&["static_elongation", "impact_force", "relaxation_time"]),
        run: viscoelastic_from_en892,
    },
    Call {
        name: "material.rest_length_factor",
        arguments: Some(&["condition"]),
        run: rest_length_factor,
    },
    Call { name: "material.weight", arguments: Some(&["cordage"]), run: weight },
];

fn strain(args: &mut Args) -> Result<Value, Failure> {
    let stretch: Stretch = args.plain("stretch")?;
    answer(&Text(stretch.strain(args.quantity("tension")?)?))
}

fn tension(args: &mut Args) -> Result<Value, Failure> {
    let stretch: Stretch = args.plain("stretch")?;
    answer(&Text(stretch.tension(args.quantity("strain")?)?))
}

fn tangent_rigidity(args: &mut Args) -> Result<Value, Failure> {
    let stretch: Stretch = args.plain("stretch")?;
    answer(&Text(stretch.tangent_rigidity(args.quantity("tension")?)?))
}

fn is_past_table(args: &mut Args) -> Result<Value, Failure> {
    let stretch: Stretch = args.plain("stretch")?;
    answer(&stretch.is_past_table(args.quantity("tension")?))
}

fn viscoelastic_from_en892(args: &mut Args) -> Result<Value, Failure> {
    let elongation: Ratio = args.quantity("static_elongation")?;
    let force: Force = args.quantity("impact_force")?;
    let time: Time = args.quantity("relaxation_time")?;
    answer(&Viscoelastic::from_en892(elongation, force, time)?)
}

fn rest_length_factor(args: &mut Args) -> Result<Value, Failure> {
    let condition: Condition = args.plain("condition")?;
    answer(&Text(condition.rest_length_factor()?))
}

fn weight(args: &mut Args) -> Result<Value, Failure> {
    let cordage: Cordage = args.plain("cordage")?;
    answer(&Text(cordage.weight()?))
}
