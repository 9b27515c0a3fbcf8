mod bundle;
mod kernel;
mod limits;
mod published;
