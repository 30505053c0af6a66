//! The half-typed form in this device's notes. Read and written by hand: derived code is many times as many bytes in the browser.

use super::{CardForm, ServiceForm, ServiceText};
use crate::json::Object;
use crate::measure::{Unit, WeightUnit};
use serde_json::Value;

impl CardForm {
    pub(super) fn written(&self) -> Value {
        let mut services = Vec::with_capacity(self.services.len());
        for service in &self.services {
            services.push(service.written());
        }
        let mut object = Object::new();
        let mut put = |name: &str, value| drop(object.insert(name.to_owned(), value));
        put("name", Value::String(self.name.clone()));
        put("rough", Value::Bool(self.rough));
        put("mix", texts(&self.mix));
        put("services", Value::Array(services));
        Value::Object(object)
    }

    pub(super) fn read_back(value: &Value) -> Option<Self> {
        // Earlier versions put its name around it.
        let value = value.get("card").unwrap_or(value);
        let mut form = Self {
            name: value.get("name")?.as_str()?.to_owned(),
            rough: value.get("rough")?.as_bool()?,
            mix: read_texts(value.get("mix")?)?,
            services: Vec::new(),
        };
        for service in value.get("services")?.as_array()? {
            form.services.push(ServiceForm::read_back(service)?);
        }
        Some(form)
    }
}

impl ServiceForm {
    fn written(&self) -> Value {
        let mut object = Object::new();
        let mut put = |name: &str, value| drop(object.insert(name.to_owned(), value));
        put("unit", Value::String(self.unit.symbol().to_owned()));
        put("texts", texts(&self.texts));
        put("round_nearest", Value::Bool(self.round_nearest));
        put("bulk_nearest", Value::Bool(self.bulk_nearest));
        put("table", rows(&self.table));
        put("flat", rows(&self.flat));
        put("extra", rows(&self.extra));
        put("pasted", Value::String(self.pasted.clone()));
        put("before", rows(&self.before));
        Value::Object(object)
    }

    fn read_back(value: &Value) -> Option<Self> {
        let unit = value.get("unit")?.as_str()?;
        let unit = WeightUnit::ALL.iter().find(|one| one.symbol() == unit)?;
        let texts = read_texts(value.get("texts")?)?;
        let texts: [String; ServiceText::COUNT] = texts.try_into().ok()?;
        let flag = |name| value.get(name).and_then(Value::as_bool);
        let sheet = |name| read_rows(value.get(name)?);
        Some(Self {
            unit: *unit,
            texts,
            round_nearest: flag("round_nearest")?,
            bulk_nearest: flag("bulk_nearest")?,
            table: sheet("table")?,
            flat: wide_enough(sheet("flat")?, 1)?,
            extra: wide_enough(sheet("extra")?, 3)?,
            pasted: value.get("pasted")?.as_str()?.to_owned(),
            before: sheet("before")?,
        })
    }
}

/// Rows of at least so many cells.
fn wide_enough(rows: Vec<Vec<String>>, least: usize) -> Option<Vec<Vec<String>>> {
    rows.iter().all(|row| row.len() >= least).then_some(rows)
}

fn texts(all: &[String]) -> Value {
    Value::Array(all.iter().cloned().map(Value::String).collect())
}

fn rows(all: &[Vec<String>]) -> Value {
    Value::Array(all.iter().map(|row| texts(row)).collect())
}

fn read_texts(value: &Value) -> Option<Vec<String>> {
    let mut texts = Vec::new();
    for text in value.as_array()? {
        texts.push(text.as_str()?.to_owned());
    }
    Some(texts)
}

fn read_rows(value: &Value) -> Option<Vec<Vec<String>>> {
    let mut rows = Vec::new();
    for row in value.as_array()? {
        rows.push(read_texts(row)?);
    }
    // Every row of every sheet has a first cell.
    wide_enough(rows, 1)
}
