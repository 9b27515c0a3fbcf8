//! Packages of the system, where it is Debian or like it and we may install.

use crate::files::which;
use crate::run::Run;

/// Installs packages, or says which are missing.
pub(crate) fn install(packages: &str) -> Result<(), String> {
    let root = Run::new("id").words("-u").ask().is_some_and(|id| id == "0");
    if !root || which("apt-get").is_none() {
        return Err(format!("missing: install {packages} (names of Debian packages)"));
    }
    println!("installing {packages} with apt-get, since verification needs them");
    let apt = || Run::new("apt-get").env("DEBIAN_FRONTEND", "noninteractive");
    apt().words("update -q").succeed()?;
    apt().words("install -q -y --no-install-recommends").words(packages).succeed()?;
    Ok(())
}
