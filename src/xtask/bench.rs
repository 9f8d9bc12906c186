//! placeholder
pub fn run() -> anyhow::Result<()> {
    Ok(())
}
