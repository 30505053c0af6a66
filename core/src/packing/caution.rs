//! Cautions: short, shown where they matter, and deferring to local rules.

/// Something to mind before selling or posting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Caution {
    /// Children's goods and helmets may have been recalled.
    Recalled,
    /// Lithium cells, aerosols, perfume: carriers restrict them.
    Restricted,
    /// Glass and crockery.
    Breakable,
    /// Blades.
    Blades,
    /// Medicines.
    Medicines,
    /// Ivory, and other parts of protected animals.
    Ivory,
    /// Old paint may hold lead.
    LeadPaint,
    /// Weapons.
    Weapons,
}

impl Caution {
    /// The sentence to show.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Recalled => "Check your country's recall list before selling this.",
            Self::Restricted => {
                "Carriers restrict cells, aerosols and perfume: their rules decide."
            }
            Self::Breakable => "Wrap it, fill the gaps, and mark the parcel fragile.",
            Self::Blades => {
                "Cover the edge, wrap it, and mark the parcel. Local law may set an age."
            }
            Self::Medicines => "Local law decides whether medicines may be sold.",
            Self::Ivory => "Ivory, fur and the like: the law decides, and may forbid it.",
            Self::LeadPaint => "Old paint may hold lead: your country's rules decide.",
            Self::Weapons => "The law decides whether this may be sold or posted.",
        }
    }
}

/// Words in a name that call for a caution. A word also stands for its plural; several words stand side by side.
const WORDS: [(Caution, &[&str]); 8] = [
    (
        Caution::Recalled,
        &[
            "helmet",
            "car seat",
            "booster seat",
            "crib",
            "cot",
            "cradle",
            "pram",
            "pushchair",
            "stroller",
            "high chair",
            "highchair",
            "baby",
            "babies",
            "toddler",
            "infant",
            "child",
            "children",
            "kid",
            "toy",
        ],
    ),
    (
        Caution::Restricted,
        &[
            "battery",
            "batteries",
            "lithium",
            "power bank",
            "aerosol",
            "spray",
            "perfume",
            "cologne",
            "aftershave",
            "nail polish",
            "nail varnish",
            "lighter",
            "laptop",
            "tablet",
            "phone",
            "camera",
            "drone",
            "e-bike",
            "scooter",
        ],
    ),
    (
        Caution::Breakable,
        &[
            "glass",
            "glasses",
            "crystal",
            "mirror",
            "vase",
            "china",
            "porcelain",
            "ceramic",
            "pottery",
            "mug",
            "cup",
            "plate",
            "bowl",
            "teapot",
            "tumbler",
            "lantern",
        ],
    ),
    (
        Caution::Blades,
        &[
            "knife", "knives", "blade", "razor", "scissors", "axe", "hatchet", "saw", "cleaver",
            "scythe", "shears",
        ],
    ),
    (
        Caution::Medicines,
        &[
            "medicine", "tablets", "pill", "ointment", "inhaler", "insulin", "vitamin",
        ],
    ),
    (
        Caution::Ivory,
        &[
            "ivory",
            "tortoiseshell",
            "scrimshaw",
            "fur",
            "horn",
            "coral",
            "crocodile",
            "feather",
        ],
    ),
    (
        Caution::LeadPaint,
        &["painted", "lead paint", "lead crystal", "enamel"],
    ),
    (
        Caution::Weapons,
        &[
            "gun",
            "rifle",
            "pistol",
            "sword",
            "dagger",
            "bayonet",
            "crossbow",
            "ammunition",
        ],
    ),
];

/// What to mind with a thing: what its kind brings, and what words in its name call for; each once, in a fixed order. A hint, never
/// a judgement: a name without such a word promises nothing.
pub fn cautions(name: &str, of_kind: &[Caution]) -> Vec<Caution> {
    let words: Vec<String> = name
        .to_ascii_lowercase()
        .split(|sign: char| !(sign.is_ascii_alphanumeric() || !sign.is_ascii() || sign == '-'))
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect();
    let mut found: Vec<Caution> = of_kind.to_vec();
    for (caution, all) in WORDS {
        if all.iter().any(|phrase| holds(&words, phrase)) {
            found.push(caution);
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Do the words of a phrase stand side by side, the last one perhaps in the plural?
fn holds(words: &[String], phrase: &str) -> bool {
    let parts: Vec<&str> = phrase.split(' ').collect();
    words.windows(parts.len()).any(|window| {
        window
            .iter()
            .zip(&parts)
            .enumerate()
            .all(|(at, (word, part))| {
                word == part
                    || (at + 1 == parts.len()
                        && word
                            .strip_prefix(part)
                            .is_some_and(|rest| rest == "s" || rest == "es"))
            })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packing::STARTERS;

    #[test]
    fn words_in_a_name_call_for_a_caution() {
        let check =
            |name, expected: &[Caution]| assert_eq!(cautions(name, &[]), expected, "{name}");
        check("Red bike HELMET", &[Caution::Recalled]);
        check("two car seats", &[Caution::Recalled]);
        check("seat of a car", &[]);
        check("Kitchen knives", &[Caution::Blades]);
        check("Power bank, perfume", &[Caution::Restricted]);
        check("wine glasses", &[Caution::Breakable]);
        check("ivory-coloured dress", &[]);
        check("Ivory dress", &[Caution::Ivory]);
        check(
            "Tin sword, painted",
            &[Caution::LeadPaint, Caution::Weapons],
        );
        check("Denim jacket", &[]);
        check("Gunmetal buttons", &[]);
        check("", &[]);
    }

    #[test]
    fn the_kind_brings_its_own_each_once() {
        let toy = STARTERS
            .iter()
            .find(|kind| kind.name == "Toy or game")
            .unwrap();
        assert_eq!(cautions("Wooden blocks", toy.cautions), [Caution::Recalled]);
        assert_eq!(cautions("Toy drum", toy.cautions), [Caution::Recalled]);
    }
}
