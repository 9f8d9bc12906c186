use super::*;

#[test]
fn the_built_in_file_reads() {
    let catalogue = Catalogue::read(include_str!("exercises.json")).unwrap();
    assert!(catalogue.len() >= 60, "{}", catalogue.len());
}
