//! Fills `%name%` places in the page and the scripts.

use anyhow::{Result, bail};

/// Replaces every `%name%` by its value. Errors when a place is missing or one is left.
pub fn fill(template: &str, values: &[(&str, &str)]) -> Result<String> {
    let mut text = template.to_owned();
    for (name, value) in values {
        let place = format!("%{name}%");
        if !text.contains(&place) {
            bail!("the template has no place {place}");
        }
        text = text.replace(&place, value);
    }
    if let Some(left) = first_place(&text) {
        bail!("the template has a place no one fills: {left}");
    }
    Ok(text)
}

/// The first `%name%` in a text; a name is made of small letters.
fn first_place(text: &str) -> Option<&str> {
    text.match_indices('%').find_map(|(at, _)| {
        let rest = &text[at + 1..];
        let end = rest.find('%')?;
        let is_name = end > 0 && rest[..end].bytes().all(|b| b.is_ascii_lowercase());
        is_name.then(|| &text[at..at + end + 2])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fills_every_place() {
        let page = fill("a %x% b %y% c %x%", &[("x", "1"), ("y", "2")]).unwrap();
        assert_eq!(page, "a 1 b 2 c 1");
    }

    #[test]
    fn refuses_a_place_without_value_and_a_value_without_place() {
        assert!(fill("a %x% %y%", &[("x", "1")]).is_err());
        assert!(fill("a", &[("x", "1")]).is_err());
    }

    #[test]
    fn a_percentage_is_not_a_place() {
        assert_eq!(
            fill("50% or 60% %x%", &[("x", "1")]).unwrap(),
            "50% or 60% 1"
        );
    }
}
