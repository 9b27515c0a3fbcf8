mod bundle;
mod chain;
mod degenerate;
mod kernel;
mod limits;
mod published;
