//! How a line of a model's table is written.

/// One call, written like the signature of the function:
///
/// - `call!(fall::impact_force(mass, fall_factor, axial_rigidity) => Text)`: a bare name is a
///   quantity, whose kind follows from the function; `name?` is one that may be absent, `[name]` a
///   vector of them; `series name` is plain numbers, one or many.
/// - `=> Text` says that a quantity comes back, `=> Texts` a list of them, `=> Always` serde data
///   that is not in a `Result`, nothing that it is serde data in a `Result`.
/// - `name: Type` is an argument of any other serde type, `&name: Type` the same by reference.
/// - `call!(swing::fly { Jump })` or `{ &Jump }`: the whole mapping is the one input struct.
macro_rules! call {
    ($model:ident :: $name:ident { & $input:ty } $(=> $wrap:ident)?) => {
        call!(@call $model $name [a] [None] [&a.whole::<$input>()?,] [$($wrap)?])
    };
    ($model:ident :: $name:ident { $input:ty } $(=> $wrap:ident)?) => {
        call!(@call $model $name [a] [None] [a.whole::<$input>()?,] [$($wrap)?])
    };
    ($model:ident :: $name:ident ( $($arguments:tt)* ) $(=> $wrap:ident)?) => {
        call!(@read $model $name [a] [$($wrap)?] [] [] $($arguments)* ,)
    };

    // Takes one argument at a time: its name to the first list, the code that reads it to the second.
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*] $(,)?) => {
        call!(@call $model $name [$a] [Some(&[$($names)*])] [$($values)*] $wrap)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        & $arg:ident : $ty:ty , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* &$a.plain::<$ty>(stringify!($arg))?,] $($rest)*)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        $arg:ident : $ty:ty , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* $a.plain::<$ty>(stringify!($arg))?,] $($rest)*)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        [$arg:ident] , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* $a.vector(stringify!($arg))?,] $($rest)*)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        series $arg:ident , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* &$a.series(stringify!($arg))?,] $($rest)*)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        $arg:ident ? , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* $a.maybe(stringify!($arg))?,] $($rest)*)
    };
    (@read $model:ident $name:ident [$a:ident] $wrap:tt [$($names:tt)*] [$($values:tt)*]
        $arg:ident , $($rest:tt)*) => {
        call!(@read $model $name [$a] $wrap [$($names)* stringify!($arg),]
            [$($values)* $a.quantity(stringify!($arg))?,] $($rest)*)
    };

    (@call $model:ident $name:ident [$a:ident] [$names:expr] [$($values:tt)*] [$($wrap:ident)?]) => {
        $crate::Call {
            name: concat!(stringify!($model), ".", stringify!($name)),
            arguments: $names,
            run: |$a| {
                // A function without arguments reads none.
                let _ = &$a;
                call!(@answer tautwork::$model::$name($($values)*), $($wrap)?)
            },
        }
    };
    (@answer $result:expr, ) => { $crate::args::answer(&$result?) };
    (@answer $result:expr, Always) => { $crate::args::answer(&$result) };
    (@answer $result:expr, Text) => { $crate::args::answer(&tautwork::quantity::Text($result?)) };
    (@answer $result:expr, Texts) => {
        $crate::args::answer(&$result?.into_iter().map(tautwork::quantity::Text).collect::<Vec<_>>())
    };
}
