//! How far each device's changes are known.

use super::Key;
use crate::id::DeviceCode;
use crate::json::Object;
use litemap::LiteMap;
use serde::de::Error;
use serde::{Deserialize, Serialize, Serializer};

/// Device → highest number known. Since numbers have no holes, this says it all.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(try_from = "Object")]
pub struct Vector(LiteMap<DeviceCode, u64>);

impl Vector {
    /// The highest number known of a device, 0 when none is.
    #[must_use]
    pub fn of(&self, device: DeviceCode) -> u64 {
        self.0.get(&device).copied().unwrap_or(0)
    }

    /// Takes note of a change. Number 0 stands for none.
    pub fn note(&mut self, key: Key) {
        if key.seq == 0 {
            return;
        }
        let highest = self.0.entry(key.device).or_insert(0);
        *highest = (*highest).max(key.seq);
    }

    /// The same without one device: what a change of that device writes as `seen`.
    #[must_use]
    pub fn without(&self, device: DeviceCode) -> Self {
        let mut others = self.clone();
        others.0.remove(&device);
        others
    }

    /// Devices with their highest numbers, in order of their codes.
    pub fn iter(&self) -> impl Iterator<Item = Key> + '_ {
        self.0.iter().map(|(&device, &seq)| Key { device, seq })
    }

    /// Whether nothing is known yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl FromIterator<Key> for Vector {
    fn from_iter<I: IntoIterator<Item = Key>>(keys: I) -> Self {
        let mut vector = Self::default();
        keys.into_iter().for_each(|key| vector.note(key));
        vector
    }
}

impl Serialize for Vector {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_map(self.0.iter())
    }
}

impl TryFrom<Object> for Vector {
    type Error = serde_json::Error;
    fn try_from(object: Object) -> Result<Self, Self::Error> {
        let mut vector = Self::default();
        for (device, seq) in &object {
            let device = device.parse().map_err(Self::Error::custom)?;
            vector.0.insert(device, u64::deserialize(seq)?);
        }
        Ok(vector)
    }
}
