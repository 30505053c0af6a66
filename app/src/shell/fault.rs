//! What can go wrong with this device's storage, told apart by what the trader can do about it.

use wasm_bindgen::{JsCast, JsValue};

/// A storage fault.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// No database in this browser.
    #[error("this browser keeps no database")]
    Absent,
    /// The browser will not open it (private window, site data blocked).
    #[error("the browser does not allow it: {0}")]
    Blocked(String),
    /// No room.
    #[error("the storage is full")]
    Full,
    /// The connection went away, as some phones do after a while in the background.
    #[error("the connection to the storage was lost: {0}")]
    Lost(String),
    /// Written by a later version of the app.
    #[error("the book was last used by a newer version of this app")]
    Newer,
    /// Another tab undid an import that this one still has in mind, took a new code for this device, or erased the book.
    #[error("another tab changed what this one rests on")]
    MovedBack,
    /// Something stored does not read back.
    #[error("what is stored is damaged: {0}")]
    Damaged(String),
    /// What is stored is damaged, and open for reading only.
    #[error("the book is open for reading only")]
    ReadOnly,
    /// The transaction was not committed.
    #[error("the storage took nothing: {0}")]
    Aborted(String),
}

/// How browsers tell, in their own words, that there is no room.
const FULL: [&str; 3] = ["NO_SPACE", "full disk", "QuotaExceeded"];

/// What the browser says of an error, for people: its name and its message. (Debug forms print nothing in a served build.)
pub fn said(error: &JsValue) -> String {
    let text = |key: &str| {
        let found = js_sys::Reflect::get(error, &JsValue::from_str(key)).ok();
        found
            .and_then(|found| found.as_string())
            .unwrap_or_default()
    };
    let said = format!("{} {}", text("name"), text("message"));
    match said.trim() {
        "" => error
            .as_string()
            .unwrap_or_else(|| "no reason given".to_owned()),
        said => said.to_owned(),
    }
}

impl Fault {
    /// From the name and message of a DOM exception, while opening (`true`) or later.
    fn from_js(error: &JsValue, opening: bool) -> Self {
        let text = |key: &str| {
            js_sys::Reflect::get(error, &JsValue::from_str(key))
                .ok()
                .and_then(|v| v.as_string())
                .unwrap_or_default()
        };
        let (name, message) = match error.as_string() {
            Some(said) => (String::new(), said),
            None => (text("name"), text("message")),
        };
        match name.as_str() {
            "QuotaExceededError" => Self::Full,
            // Said in the words of the storage beneath, by the browsers that tell it so.
            _ if FULL.iter().any(|words| message.contains(words)) => Self::Full,
            "VersionError" => Self::Newer,
            // The storage itself is in trouble, as on a full disk; what is in it may still be had.
            "UnknownError" if opening => Self::Lost(message),
            _ if opening => Self::Blocked(format!("{name} {message}")),
            "InvalidStateError" | "UnknownError" | "TransactionInactiveError" => {
                Self::Lost(format!("{name} {message}"))
            }
            _ => Self::Aborted(format!("{name} {message}")),
        }
    }

    /// From the library's error, whose cause is inside.
    pub fn from_idb(error: &idb::Error, opening: bool) -> Self {
        use idb::Error as E;
        match error {
            E::IndexedDbNotFound(_) => Self::Absent,
            E::DomException(exception) => Self::from_js(exception.unchecked_ref(), opening),
            E::AddFailed(e)
            | E::GetFailed(e)
            | E::GetAllFailed(e)
            | E::UpdateFailed(e)
            | E::DeleteFailed(e)
            | E::IndexedDbOpenFailed(e)
            | E::TransactionOpenFailed(e)
            | E::ObjectStoreNotFound(e) => Self::from_js(e, opening),
            other => Self::Aborted(other.to_string()),
        }
    }

    /// From the transaction itself once it has failed: it names the cause that the request's error may hide.
    pub fn from_transaction(transaction: &web_sys::IdbTransaction) -> Self {
        let aborted = || Self::Aborted("aborted without a cause".to_owned());
        transaction
            .error()
            .map_or_else(aborted, |error| Self::from_js(error.unchecked_ref(), false))
    }

    /// From rexie's error.
    pub fn from_rexie(error: &rexie::Error, opening: bool) -> Self {
        match error {
            rexie::Error::IdbError(error) => Self::from_idb(error, opening),
            other => Self::Aborted(other.to_string()),
        }
    }

    /// From a plain JavaScript error.
    pub fn from_value(error: &JsValue) -> Self {
        Self::from_js(error, false)
    }
}

impl From<idb::Error> for Fault {
    fn from(error: idb::Error) -> Self {
        Self::from_idb(&error, false)
    }
}

impl From<rexie::Error> for Fault {
    fn from(error: rexie::Error) -> Self {
        Self::from_rexie(&error, false)
    }
}
