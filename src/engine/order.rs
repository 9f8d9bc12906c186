//! Sorting the short lists of a plan or a log, in little code.
//!
//! Start at [`sort_by_key`]. The standard library's sorts bring about 4 KB of
//! machine code for every type they are used with, which a phone would have to
//! download; collecting into a `BTreeSet` or `BTreeMap` sorts as well. Lists
//! here hold a dozen entries, or thousands that are in order already. This
//! module never sorts what is long and out of order: the work grows with the
//! square of the length.

use std::collections::{BTreeMap, BTreeSet};

/// Sorts in place; entries that neither goes before the other keep their order.
pub fn sort_by<T>(list: &mut [T], goes_before: impl Fn(&T, &T) -> bool) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && goes_before(&list[at], &list[at - 1]) {
            list.swap(at, at - 1);
            at -= 1;
        }
    }
}

/// Sorts in place by a key; entries of the same key keep their order.
pub fn sort_by_key<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    sort_by(list, |a, b| key(a) < key(b));
}

/// Sorts in place.
pub fn sort<T: Ord>(list: &mut [T]) {
    sort_by(list, |a, b| a < b);
}

/// A set of these, put in one by one.
#[must_use]
pub fn set<T: Ord>(entries: impl IntoIterator<Item = T>) -> BTreeSet<T> {
    let mut set = BTreeSet::new();
    set.extend(entries);
    set
}

/// A map of these, put in one by one; of one key the last stays.
#[must_use]
pub fn map<K: Ord, V>(entries: impl IntoIterator<Item = (K, V)>) -> BTreeMap<K, V> {
    let mut map = BTreeMap::new();
    map.extend(entries);
    map
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn sorts_as_the_standard_library_does(mut list: Vec<(u8, u8)>) {
            let mut expected = list.clone();
            expected.sort_by_key(|pair| pair.0 / 32);
            sort_by_key(&mut list, |pair| pair.0 / 32);
            prop_assert_eq!(&list, &expected);
            expected.sort();
            sort(&mut list);
            prop_assert_eq!(&list, &expected);
            prop_assert_eq!(set(list.clone()), list.iter().copied().collect());
            prop_assert_eq!(map(list.clone()), list.into_iter().collect());
        }
    }
}
