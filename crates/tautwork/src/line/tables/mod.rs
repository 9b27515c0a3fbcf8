mod angle;
mod mid_load;
mod sag;
mod text;

pub use angle::{AngleRow, angle_table};
pub use mid_load::{MidLoadRow, mid_load_table};
pub use sag::{ListedTension, SagCase, SagRow, sag_table};
pub use text::{LineTable, TableFormat, TableStyle, table_text};

#[cfg(test)]
mod tests;
