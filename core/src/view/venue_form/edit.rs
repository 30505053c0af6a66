//! Changes of the form that touch more than one text: charges come, go and move, and what names them follows.

use super::charge::ChargeForm;
use super::choices::Posts;
use super::limit::GroupForm;
use super::marks::{Marks, swapped, without};
use super::posting::BandForm;
use super::{StepForm, VenueForm};
use crate::terms::{MAX_CHARGES, MAX_GROUPS, MAX_STEPS};

impl VenueForm {
    /// Adds a charge at the end, still without a name, unless there are as many as there may be.
    pub fn add_charge(&mut self) {
        if self.charges.len() < MAX_CHARGES {
            self.charges.push(ChargeForm::default());
        }
    }

    /// Takes a charge away. Charges and limits that name it do so no longer.
    pub fn remove_charge(&mut self, at: usize) {
        if at >= self.charges.len() {
            return;
        }
        self.charges.remove(at);
        self.mark_anew(&|marks| without(marks, at));
    }

    /// Changes places with the charge before.
    pub fn move_up(&mut self, at: usize) {
        if at == 0 || at >= self.charges.len() {
            return;
        }
        self.charges.swap(at - 1, at);
        self.mark_anew(&|marks| swapped(marks, at));
    }

    fn mark_anew(&mut self, anew: &dyn Fn(Marks) -> Marks) {
        for charge in &mut self.charges {
            charge.others = anew(charge.others);
        }
        for group in &mut self.groups {
            group.charges = anew(group.charges);
        }
    }

    /// Adds a limit on several charges, unless there are as many as there may be.
    pub fn add_limit(&mut self) {
        if self.groups.len() < MAX_GROUPS {
            self.groups.push(GroupForm::default());
        }
    }

    /// Adds an empty row to a charge's table, unless it has as many as it may.
    pub fn add_step(&mut self, at: usize) {
        if let Some(charge) = self.charges.get_mut(at)
            && charge.steps.len() < MAX_STEPS
        {
            charge.steps.push(StepForm::default());
        }
    }

    /// Chooses how much a charge is. A table begins with a row.
    pub fn choose_way(&mut self, at: usize, way: super::Way) {
        let Some(charge) = self.charges.get_mut(at) else {
            return;
        };
        charge.way = way;
        if charge.has_table() && charge.steps.is_empty() {
            charge.steps.push(StepForm::default());
        }
    }

    /// Chooses who pays the postage. Where none goes out, it can't be free from a sum.
    pub fn choose_post(&mut self, way: Posts) {
        self.post.way = way;
        if way == Posts::HandedOver {
            self.post.is_free = false;
        }
    }

    /// Chooses whether the label goes by weight. Bands begin with a row.
    pub fn choose_bands(&mut self, by_weight: bool) {
        self.post.by_weight = by_weight;
        if by_weight && self.post.bands.is_empty() {
            self.post.bands.push(BandForm::default());
        }
    }
}
