mod bundle;
mod chain;
mod kernel;
mod limits;
mod published;
