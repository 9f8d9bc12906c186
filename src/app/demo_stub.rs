//! stub
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Catalogue;
use weekloom_store::*;
#[derive(Clone, Copy)]
pub struct Crew;
impl Crew {
    pub const ALL: [Crew; 1] = [Crew];
    pub fn title(self) -> &'static str {
        "x"
    }
}
pub fn changes<S: Shelf>(
    _: &Store<S>,
    _: &Catalogue,
    _: Crew,
    _: Day,
) -> Result<Changes, StoreError> {
    Ok(Changes::none())
}
