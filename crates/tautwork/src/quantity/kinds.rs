//! The kinds of quantity the library knows, each with the units it is read in.

use uom::si::{ISQ, SI};
use uom::typenum::{N1, N2, N3, P1, P2, Z0};

/// A unit: the symbol that is printed, other spellings that are read, and the factor to SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Symbol as printed.
    pub symbol: &'static str,
    /// Other spellings accepted on input.
    pub aliases: &'static [&'static str],
    /// SI value of one unit. Exact by definition unless the table says otherwise.
    pub factor: f64,
}

/// What every kind of quantity offers to the parser, the printer and serde.
pub trait Quantity: Copy + PartialEq + PartialOrd + 'static {
    /// Name of the kind, such as `force`.
    const NAME: &'static str;
    /// Units read and printed; the first is the SI unit.
    const UNITS: &'static [Unit];
    /// A well-formed value, shown in error messages.
    const EXAMPLE: &'static str;
    /// From the value in the SI unit.
    fn from_si(value: f64) -> Self;
    /// The value in the SI unit.
    fn si(self) -> f64;
}

/// Name, units and example of one kind, for code that learns the kind at run time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kind {
    /// Name of the kind.
    pub name: &'static str,
    /// Units of the kind; the first is the SI unit.
    pub units: &'static [Unit],
    /// A well-formed value.
    pub example: &'static str,
}

// 1 lb = 0.453 592 37 kg and 1 ft = 0.3048 m exactly: international yard and pound agreement, 1959.
// Standard gravity 9.806 65 m/s2 exactly: 3rd CGPM, 1901; it defines kgf and lbf.
const POUND: f64 = 0.453_592_37;
const FOOT: f64 = 0.3048;
/// Standard acceleration of free fall in m/s² (3rd CGPM, 1901), exact by definition; it defines the
/// kilogram-force. The models use [`GRAVITY`].
pub const STANDARD_GRAVITY: f64 = 9.806_65;
/// Acceleration of free fall that every model uses, in m/s²: the figure of engineering textbooks and of
/// the test standards. On Earth the local value lies between 9.78 and 9.84, so this is good to 0.3 %.
pub const GRAVITY: f64 = 9.81;
const POUND_FORCE: f64 = POUND * STANDARD_GRAVITY;
const MILE: f64 = 5280.0 * FOOT;
const DEGREE: f64 = core::f64::consts::PI / 180.0;

macro_rules! kinds {
    ($($(#[$doc:meta])* $ty:ident = $isq:ty as $kind:ident, $name:literal, $example:literal, [
        $( $unit:literal $(| $alias:literal)* = $factor:expr, $word:ident, $reader:ident; )*
    ];)*) => {
        $(
            $(#[$doc])*
            pub type $ty = uom::si::Quantity<$isq, SI<f64>, f64>;

            impl Quantity for $ty {
                const NAME: &'static str = $name;
                const EXAMPLE: &'static str = $example;
                const UNITS: &'static [Unit] = &[
                    $( Unit { symbol: $unit, aliases: &[$($alias),*], factor: $factor } ),*
                ];
                fn from_si(value: f64) -> Self {
                    Self { dimension: core::marker::PhantomData, units: core::marker::PhantomData, value }
                }
                fn si(self) -> f64 {
                    self.value
                }
            }
        )*

        /// Every kind, in the order of the table.
        pub const KINDS: &[Kind] = &[
            $( Kind { name: $name, units: <$ty as Quantity>::UNITS, example: $example } ),*
        ];

        /// Words that make a quantity of a number: `22.0.kilonewtons()`.
        pub trait Words {
            $($( #[doc = concat!("This many ", $unit, ".")] fn $word(self) -> $ty; )*)*
        }

        impl Words for f64 {
            $($( fn $word(self) -> $ty { <$ty>::from_si(self * $factor) } )*)*
        }

        $(
            #[doc = concat!("Readers of a ", $name, ".")]
            pub trait $kind {
                $( #[doc = concat!("The value in ", $unit, ".")] fn $reader(self) -> f64; )*
            }

            impl $kind for $ty {
                $( fn $reader(self) -> f64 { self.si() / $factor } )*
            }
        )*
    };
}

kinds! {
    /// A length.
    Length = ISQ<P1, Z0, Z0, Z0, Z0, Z0, Z0> as ReadLength, "length", "64 m", [
        "m" = 1.0, meters, in_meters;
        "mm" = 1e-3, millimeters, in_millimeters;
        "cm" = 1e-2, centimeters, in_centimeters;
        "km" = 1e3, kilometers, in_kilometers;
        "ft" = FOOT, feet, in_feet;
        "in" = FOOT / 12.0, inches, in_inches;
    ];
    /// A mass.
    Mass = ISQ<Z0, P1, Z0, Z0, Z0, Z0, Z0> as ReadMass, "mass", "82 kg", [
        "kg" = 1.0, kilograms, in_kilograms;
        "g" = 1e-3, grams, in_grams;
        "t" = 1e3, tonnes, in_tonnes;
        "lb" = POUND, pounds, in_pounds;
    ];
    /// A time.
    Time = ISQ<Z0, Z0, P1, Z0, Z0, Z0, Z0> as ReadTime, "time", "1.5 s", [
        "s" = 1.0, seconds, in_seconds;
        "ms" = 1e-3, milliseconds, in_milliseconds;
        "min" = 60.0, minutes, in_minutes;
        "h" = 3600.0, hours, in_hours;
    ];
    /// A force.
    Force = ISQ<P1, P1, N2, Z0, Z0, Z0, Z0> as ReadForce, "force", "22 kN", [
        "N" = 1.0, newtons, in_newtons;
        "kN" = 1e3, kilonewtons, in_kilonewtons;
        "daN" = 10.0, decanewtons, in_decanewtons;
        "MN" = 1e6, meganewtons, in_meganewtons;
        "kgf" = STANDARD_GRAVITY, kilograms_force, in_kilograms_force;
        "tf" = 1e3 * STANDARD_GRAVITY, tonnes_force, in_tonnes_force;
        "lbf" = POUND_FORCE, pounds_force, in_pounds_force;
        "kip" | "kips" = 1e3 * POUND_FORCE, kips, in_kips;
    ];
    /// A speed or a velocity component.
    Speed = ISQ<P1, Z0, N1, Z0, Z0, Z0, Z0> as ReadSpeed, "speed", "1.5 m/s", [
        "m/s" = 1.0, meters_per_second, in_meters_per_second;
        "km/h" = 1.0 / 3.6, kilometers_per_hour, in_kilometers_per_hour;
        "ft/s" = FOOT, feet_per_second, in_feet_per_second;
        "mph" = MILE / 3600.0, miles_per_hour, in_miles_per_hour;
    ];
    /// An acceleration.
    Acceleration = ISQ<P1, Z0, N2, Z0, Z0, Z0, Z0> as ReadAcceleration, "acceleration", "9.81 m/s²", [
        "m/s²" | "m/s2" | "m/s^2" = 1.0, meters_per_second_squared, in_meters_per_second_squared;
        "gn" = STANDARD_GRAVITY, standard_gravities, in_standard_gravities;
        "ft/s²" | "ft/s2" | "ft/s^2" = FOOT, feet_per_second_squared, in_feet_per_second_squared;
    ];
    /// An angle.
    Angle = ISQ<Z0, Z0, Z0, Z0, Z0, Z0, Z0, dyn uom::si::marker::AngleKind> as ReadAngle, "angle", "30 deg", [
        "rad" = 1.0, radians, in_radians;
        "deg" | "°" | "degree" | "degrees" = DEGREE, degrees, in_degrees;
        "turn" | "turns" = 2.0 * core::f64::consts::PI, turns, in_turns;
    ];
    /// A pure number: strain, efficiency, factor, share.
    Ratio = ISQ<Z0, Z0, Z0, Z0, Z0, Z0, Z0> as ReadRatio, "ratio", "8.5 %", [
        "1" = 1.0, ratio, in_ratio;
        "%" | "percent" = 1e-2, percent, in_percent;
        "‰" | "permille" = 1e-3, permille, in_permille;
    ];
    /// Mass per rest length of cordage.
    LinearDensity = ISQ<N1, P1, Z0, Z0, Z0, Z0, Z0> as ReadLinearDensity, "linear density", "72 g/m", [
        "kg/m" = 1.0, kilograms_per_meter, in_kilograms_per_meter;
        "g/m" = 1e-3, grams_per_meter, in_grams_per_meter;
        "kg/100m" = 1e-2, kilograms_per_100_meters, in_kilograms_per_100_meters;
        "lb/ft" = POUND / FOOT, pounds_per_foot, in_pounds_per_foot;
        "lb/100ft" = POUND / (100.0 * FOOT), pounds_per_100_feet, in_pounds_per_100_feet;
    ];
    /// Force per length: a weight or wind load along a line, or the stiffness of a spring.
    LineLoad = ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0> as ReadLineLoad, "force per length", "0.7 N/m", [
        "N/m" = 1.0, newtons_per_meter, in_newtons_per_meter;
        "kN/m" = 1e3, kilonewtons_per_meter, in_kilonewtons_per_meter;
        "N/mm" = 1e3, newtons_per_millimeter, in_newtons_per_millimeter;
        "kgf/m" = STANDARD_GRAVITY, kilograms_force_per_meter, in_kilograms_force_per_meter;
        "lbf/ft" = POUND_FORCE / FOOT, pounds_force_per_foot, in_pounds_force_per_foot;
        "lbf/in" = POUND_FORCE * 12.0 / FOOT, pounds_force_per_inch, in_pounds_force_per_inch;
    ];
    /// An area, such as a drag area.
    Area = ISQ<P2, Z0, Z0, Z0, Z0, Z0, Z0> as ReadArea, "area", "0.55 m²", [
        "m²" | "m2" | "m^2" = 1.0, square_meters, in_square_meters;
        "mm²" | "mm2" | "mm^2" = 1e-6, square_millimeters, in_square_millimeters;
        "ft²" | "ft2" | "ft^2" = FOOT * FOOT, square_feet, in_square_feet;
    ];
    /// Mass per volume, such as the density of air.
    Density = ISQ<N3, P1, Z0, Z0, Z0, Z0, Z0> as ReadDensity, "density", "1.2 kg/m³", [
        "kg/m³" | "kg/m3" | "kg/m^3" = 1.0, kilograms_per_cubic_meter, in_kilograms_per_cubic_meter;
        "lb/ft³" | "lb/ft3" | "lb/ft^3" = POUND / (FOOT * FOOT * FOOT), pounds_per_cubic_foot, in_pounds_per_cubic_foot;
    ];
    /// Force per area: Young's modulus, the strength of a material.
    Pressure = ISQ<N1, P1, N2, Z0, Z0, Z0, Z0> as ReadPressure, "pressure", "11 GPa", [
        "Pa" = 1.0, pascals, in_pascals;
        "kPa" = 1e3, kilopascals, in_kilopascals;
        "MPa" | "N/mm²" | "N/mm2" | "N/mm^2" = 1e6, megapascals, in_megapascals;
        "GPa" = 1e9, gigapascals, in_gigapascals;
        "psi" = POUND_FORCE / (FOOT / 12.0 * FOOT / 12.0), pounds_per_square_inch, in_pounds_per_square_inch;
        "ksi" = 1e3 * POUND_FORCE / (FOOT / 12.0 * FOOT / 12.0), kips_per_square_inch, in_kips_per_square_inch;
    ];
    /// An energy.
    Energy = ISQ<P2, P1, N2, Z0, Z0, Z0, Z0> as ReadEnergy, "energy", "35 kJ", [
        "J" = 1.0, joules, in_joules;
        "kJ" = 1e3, kilojoules, in_kilojoules;
        "ft·lbf" | "ft lbf" | "ft*lbf" = FOOT * POUND_FORCE, foot_pounds_force, in_foot_pounds_force;
    ];
    /// Force per speed of a viscous damper.
    Damping = ISQ<Z0, P1, N1, Z0, Z0, Z0, Z0> as ReadDamping, "damping", "60 N·s/m", [
        "N·s/m" | "N s/m" | "N*s/m" | "Ns/m" | "kg/s" = 1.0, newton_seconds_per_meter, in_newton_seconds_per_meter;
    ];
    /// A difference of two temperatures. No model takes a temperature itself, so "20 °C" is refused.
    TemperatureDifference = ISQ<Z0, Z0, Z0, Z0, P1, Z0, Z0> as ReadTemperatureDifference, "temperature difference", "-15 K", [
        "K" | "Δ°C" | "delta_degC" = 1.0, kelvins, in_kelvins;
        "Δ°F" | "delta_degF" = 5.0 / 9.0, fahrenheit_degrees, in_fahrenheit_degrees;
    ];
    /// Strain per temperature difference: coefficient of thermal expansion. Negative for fibres that
    /// shorten when they get warm.
    ThermalExpansion = ISQ<Z0, Z0, Z0, Z0, N1, Z0, Z0> as ReadThermalExpansion, "thermal expansion", "80 ppm/K", [
        "1/K" | "K⁻¹" | "K^-1" = 1.0, per_kelvin, in_per_kelvin;
        "ppm/K" | "µm/m/K" = 1e-6, ppm_per_kelvin, in_ppm_per_kelvin;
        "%/K" = 1e-2, percent_per_kelvin, in_percent_per_kelvin;
        "1/Δ°F" | "1/delta_degF" = 9.0 / 5.0, per_fahrenheit_degree, in_per_fahrenheit_degree;
    ];
}

/// Axial rigidity EA: the tension that would double the length of a linear cord.
pub type AxialRigidity = Force;
/// Stiffness of a spring, an anchor leg or a whole line at one point.
pub type Stiffness = LineLoad;
