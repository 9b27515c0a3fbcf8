//! Tables of handbooks.

use tautwork::line::{
    LineTable, ListedTension, SagCase, TableStyle, angle_table, mid_load_table, table_text,
};
use tautwork::quantity::{Angle, Ratio, Text};

use crate::args::{Args, answer};
use crate::{Call, Failure, Value};

pub(crate) const CALLS: &[Call] = &[
    call!(line::sag_table(&cases: Vec<SagCase>, listed: ListedTension)),
    Call {
        name: "line.mid_load_table",
        arguments: Some(&["sags_over_span", "load"]),
        run: mid_load,
    },
    Call { name: "line.angle_table", arguments: Some(&["included"]), run: angles },
    Call { name: "line.table_text", arguments: Some(&["table", "style"]), run: text },
];

fn mid_load(args: &mut Args) -> Result<Value, Failure> {
    let sags: Vec<Text<Ratio>> = args.plain("sags_over_span")?;
    let sags: Vec<Ratio> = sags.into_iter().map(|sag| sag.0).collect();
    answer(&mid_load_table(&sags, args.quantity("load")?)?)
}

fn angles(args: &mut Args) -> Result<Value, Failure> {
    let angles: Vec<Text<Angle>> = args.plain("included")?;
    let angles: Vec<Angle> = angles.into_iter().map(|angle| angle.0).collect();
    answer(&angle_table(&angles)?)
}

fn text(args: &mut Args) -> Result<Value, Failure> {
    let table: LineTable = args.plain("table")?;
    let style: Option<TableStyle> = args.plain("style")?;
    answer(&table_text(&table, &style.unwrap_or_default())?)
}
