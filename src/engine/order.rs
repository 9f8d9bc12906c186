//! Lists, sets and maps in order, in little code.
//!
//! Start at [`sort_by_key`], [`Set`] and [`Map`]. The standard library's sorts
//! and ordered collections bring 2 to 5 KB of machine code for every type they
//! are used with, which a phone would have to download. What is kept in order
//! here is short, or comes in order nearly always. This module never serves
//! what is long and out of order: the work to bring it in order grows with the
//! square of the length.

use std::borrow::Borrow;

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

/// Values by key, ascending, each key once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Map<K, V>(Vec<(K, V)>);

impl<K, V> Default for Map<K, V> {
    fn default() -> Self {
        Self::new()
    }
}

impl<K, V> Map<K, V> {
    /// Nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// How many keys there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Keys and values, ascending.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (&K, &V)> {
        self.0.iter().map(|(key, value)| (key, value))
    }

    /// Keys, ascending.
    pub fn keys(&self) -> impl DoubleEndedIterator<Item = &K> {
        self.0.iter().map(|(key, _)| key)
    }

    /// Values, by ascending key.
    pub fn values(&self) -> impl DoubleEndedIterator<Item = &V> {
        self.0.iter().map(|(_, value)| value)
    }
}

impl<K: Ord, V> Map<K, V> {
    /// Where the key is, or belongs.
    fn place<Q: Ord + ?Sized>(&self, key: &Q) -> Result<usize, usize>
    where
        K: Borrow<Q>,
    {
        self.0
            .binary_search_by(|(there, _)| there.borrow().cmp(key))
    }

    /// The value of a key.
    #[must_use]
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|at| &self.0[at].1)
    }

    /// Whether the key is there.
    #[must_use]
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.place(key).is_ok()
    }

    /// Puts a value in, and hands back the one it takes the place of.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        match self.place(&key) {
            Ok(at) => Some(std::mem::replace(&mut self.0[at].1, value)),
            Err(at) => {
                self.0.insert(at, (key, value));
                None
            }
        }
    }

    /// The value of a key, put in first where there is none.
    pub fn get_or_insert_with(&mut self, key: K, value: impl FnOnce() -> V) -> &mut V {
        let at = match self.place(&key) {
            Ok(at) => at,
            Err(at) => {
                self.0.insert(at, (key, value()));
                at
            }
        };
        &mut self.0[at].1
    }

    /// Takes a key and its value out.
    pub fn remove<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<V>
    where
        K: Borrow<Q>,
    {
        self.place(key).ok().map(|at| self.0.remove(at).1)
    }
}

impl<K: Ord, V> Extend<(K, V)> for Map<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, entries: I) {
        for (key, value) in entries {
            self.insert(key, value);
        }
    }
}

impl<K: Ord, V> FromIterator<(K, V)> for Map<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Self {
        let mut map = Self::new();
        map.extend(entries);
        map
    }
}

impl<K, V> IntoIterator for Map<K, V> {
    type Item = (K, V);
    type IntoIter = std::vec::IntoIter<(K, V)>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<K: Ord + Borrow<Q>, Q: Ord + ?Sized, V> std::ops::Index<&Q> for Map<K, V> {
    type Output = V;

    fn index(&self, key: &Q) -> &V {
        self.get(key).expect("the key is there")
    }
}

/// Values, ascending, each once.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Set<T>(Vec<T>);

impl<T> Default for Set<T> {
    fn default() -> Self {
        Self::new()
    }
}

impl<T> Set<T> {
    /// Nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// How many values there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The values, ascending.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// The values, ascending.
    #[must_use]
    pub fn as_slice(&self) -> &[T] {
        &self.0
    }

    /// Keeps the values for which this holds.
    pub fn retain(&mut self, keeps: impl FnMut(&T) -> bool) {
        self.0.retain(keeps);
    }
}

impl<T: Ord> Set<T> {
    /// Whether the value is there.
    #[must_use]
    pub fn contains<Q: Ord + ?Sized>(&self, value: &Q) -> bool
    where
        T: Borrow<Q>,
    {
        self.0
            .binary_search_by(|there| there.borrow().cmp(value))
            .is_ok()
    }

    /// Puts a value in; whether it was not there before.
    pub fn insert(&mut self, value: T) -> bool {
        let place = self.0.binary_search(&value);
        if let Err(at) = place {
            self.0.insert(at, value);
        }
        place.is_err()
    }

    /// Takes a value out; whether it was there.
    pub fn remove<Q: Ord + ?Sized>(&mut self, value: &Q) -> bool
    where
        T: Borrow<Q>,
    {
        let place = self.0.binary_search_by(|there| there.borrow().cmp(value));
        if let Ok(at) = place {
            self.0.remove(at);
        }
        place.is_ok()
    }
}

impl<T: Ord> Extend<T> for Set<T> {
    fn extend<I: IntoIterator<Item = T>>(&mut self, values: I) {
        for value in values {
            self.insert(value);
        }
    }
}

impl<T: Ord> FromIterator<T> for Set<T> {
    fn from_iter<I: IntoIterator<Item = T>>(values: I) -> Self {
        let mut set = Self::new();
        set.extend(values);
        set
    }
}

impl<T: Ord, const N: usize> From<[T; N]> for Set<T> {
    fn from(values: [T; N]) -> Self {
        values.into_iter().collect()
    }
}

impl<T> IntoIterator for Set<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<'a, T> IntoIterator for &'a Set<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::{BTreeMap, BTreeSet};

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
        }

        #[test]
        fn sets_and_maps_hold_what_those_of_the_standard_library_do(
            changes: Vec<(u8, u8, bool)>,
        ) {
            let (mut set, mut map) = (Set::new(), Map::new());
            let (mut std_set, mut std_map) = (BTreeSet::new(), BTreeMap::new());
            for (key, value, goes) in changes {
                let key = key % 16;
                prop_assert_eq!(set.contains(&key), std_set.contains(&key));
                prop_assert_eq!(map.get(&key), std_map.get(&key));
                prop_assert_eq!(map.contains_key(&key), std_map.contains_key(&key));
                if goes {
                    prop_assert_eq!(set.remove(&key), std_set.remove(&key));
                    prop_assert_eq!(map.remove(&key), std_map.remove(&key));
                } else if value % 2 == 0 {
                    prop_assert_eq!(set.insert(key), std_set.insert(key));
                    prop_assert_eq!(map.insert(key, value), std_map.insert(key, value));
                } else {
                    let std = *std_map.entry(key).or_insert(value);
                    prop_assert_eq!(*map.get_or_insert_with(key, || value), std);
                }
            }
            prop_assert_eq!((set.len(), map.len()), (std_set.len(), std_map.len()));
            prop_assert!(set.iter().eq(&std_set));
            prop_assert!(map.iter().eq(&std_map));
            prop_assert!(map.keys().eq(std_map.keys()) && map.values().eq(std_map.values()));
        }
    }
}
