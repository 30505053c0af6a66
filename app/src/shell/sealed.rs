//! Sealing files by a passphrase, and opening sealed ones: the browser's ciphers around the lines of `exchange::sealed` of the core.
//!
//! A slice at a time is sealed or opened, so that memory stays low whatever the file.

use super::fault::said;
use haulwren_core::exchange::sealed::{
    Body, KEY, Lock, ROUNDS, SLICE, SealedError, Slice, jwe_line, lock_head, salt_input, slice_head,
};
use js_sys::{Array, Function, JsString, Object, Promise, Reflect, Uint8Array};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

use super::clock;

/// Why something is not sealed, or does not open.
#[derive(Debug)]
pub enum Unopened {
    /// The file is not one that opens.
    Unfit(SealedError),
    /// The browser has no ciphers for us, as on pages that are not served securely.
    NoCipher(String),
}

impl From<SealedError> for Unopened {
    fn from(error: SealedError) -> Self {
        Self::Unfit(error)
    }
}

fn no_cipher(error: &JsValue) -> Unopened {
    Unopened::NoCipher(said(error))
}

/// A passphrase, ready for use.
#[derive(Clone)]
pub struct Passphrase(Vec<u8>);

impl Passphrase {
    /// From what was typed: see `exchange::sealed` of the core. None when nothing was.
    pub fn of(typed: &str) -> Option<Self> {
        // All of category Zs but the plain space.
        let is_space = |sign: char| {
            matches!(
                sign,
                '\u{a0}' | '\u{1680}' | '\u{2000}'
                    ..='\u{200a}' | '\u{202f}' | '\u{205f}' | '\u{3000}'
            )
        };
        let spaced: String = typed
            .chars()
            .map(|sign| if is_space(sign) { ' ' } else { sign })
            .collect();
        let composed = JsString::from(spaced).normalize("NFC");
        let text = composed.as_string()?.trim().to_owned();
        (!text.is_empty()).then(|| Self(text.into_bytes()))
    }
}

/// The key of one file.
#[derive(Clone)]
pub struct FileKey(JsValue);

/// Opens a lock.
pub async fn unlock(lock: &Lock, passphrase: &Passphrase) -> Result<FileKey, Unopened> {
    let wrapping = wrapping_key(passphrase, &lock.salt, lock.rounds).await?;
    let wrong = |_| Unopened::Unfit(SealedError::WrongPassphrase);
    let content = unwrapped(&lock.wrapped, &wrapping).await.map_err(wrong)?;
    let key = opened(&content, &lock.body).await.map_err(wrong)?;
    file_key(&key).await
}

/// Opens a slice: a piece of the plain file.
pub async fn open(key: &FileKey, slice: &Slice) -> Result<Vec<u8>, Unopened> {
    let opened = opened(&key.0, &slice.body).await;
    let opened = opened.map_err(|_| SealedError::Altered { line: slice.line })?;
    Ok(opened.to_vec())
}

/// Seals a file, piece by piece.
pub struct Sealer {
    key: FileKey,
    n: u64,
    /// Bytes that do not fill a slice yet, or that may be the last.
    begun: Vec<u8>,
}

impl Sealer {
    /// Begins a file: its first line, and what seals the rest. Salt and keys are fresh.
    pub async fn begin(passphrase: &Passphrase) -> Result<(Self, String), Unopened> {
        let salt: [u8; 16] = clock::chance();
        let wrapping = wrapping_key(passphrase, &salt_input(&salt), ROUNDS).await?;
        let content: [u8; KEY] = clock::chance();
        let content = raw_key(&content, &named("AES-GCM"), &["encrypt"], true).await;
        let content = content.map_err(|error| no_cipher(&error))?;
        let arguments = ["raw".into(), content.clone(), wrapping, "AES-KW".into()];
        let wrapped = ask("wrapKey", &arguments).await;
        let wrapped = wrapped.map_err(|error| no_cipher(&error))?;
        let wrapped = Uint8Array::new(&wrapped).to_vec();
        let key: [u8; KEY] = clock::chance();
        let first = sealed(&content, &lock_head(&salt), &wrapped, &key).await?;
        let key = file_key(&Uint8Array::from(key.as_slice())).await?;
        let begun = Vec::new();
        Ok((Self { key, n: 0, begun }, first))
    }

    /// Takes bytes of the plain file; gives the lines that are whole.
    pub async fn push(&mut self, bytes: &[u8]) -> Result<Vec<String>, Unopened> {
        self.begun.extend_from_slice(bytes);
        let mut lines = Vec::new();
        // A slice that is just full may be the last.
        while self.begun.len() > SLICE {
            let rest = self.begun.split_off(SLICE);
            let slice = core::mem::replace(&mut self.begun, rest);
            lines.push(self.slice(&slice, false).await?);
        }
        Ok(lines)
    }

    /// The last line.
    pub async fn finish(mut self) -> Result<String, Unopened> {
        let slice = core::mem::take(&mut self.begun);
        self.slice(&slice, true).await
    }

    async fn slice(&mut self, plain: &[u8], last: bool) -> Result<String, Unopened> {
        self.n += 1;
        sealed(&self.key.0, &slice_head(self.n, last), &[], plain).await
    }
}

/// A line: some bytes sealed under a header.
async fn sealed(
    key: &JsValue,
    head: &str,
    wrapped: &[u8],
    plain: &[u8],
) -> Result<String, Unopened> {
    let iv: [u8; 12] = clock::chance();
    let arguments = [
        cipher(&iv, head),
        key.clone(),
        Uint8Array::from(plain).into(),
    ];
    let sealed = ask("encrypt", &arguments).await;
    let sealed = sealed.map_err(|error| no_cipher(&error))?;
    Ok(jwe_line(
        head,
        wrapped,
        &iv,
        &Uint8Array::new(&sealed).to_vec(),
    ))
}

async fn opened(key: &JsValue, body: &Body) -> Result<Uint8Array, JsValue> {
    let sealed = Uint8Array::from(body.sealed.as_slice());
    let arguments = [cipher(&body.iv, &body.head), key.clone(), sealed.into()];
    Ok(Uint8Array::new(&ask("decrypt", &arguments).await?))
}

/// The key that wraps the lock's key: PBES2 (RFC 7518 section 4.8).
async fn wrapping_key(
    passphrase: &Passphrase,
    salt: &[u8],
    rounds: u32,
) -> Result<JsValue, Unopened> {
    let stirred = async {
        let base = raw_key(&passphrase.0, &named("PBKDF2"), &["deriveKey"], false).await?;
        let stirring = named("PBKDF2");
        set(&stirring, "hash", &"SHA-512".into());
        set(&stirring, "salt", &Uint8Array::from(salt));
        set(&stirring, "iterations", &rounds.into());
        let wanted = named("AES-KW");
        set(&wanted, "length", &256.into());
        let uses = uses(&["wrapKey", "unwrapKey"]);
        ask(
            "deriveKey",
            &[stirring.into(), base, wanted.into(), false.into(), uses],
        )
        .await
    };
    stirred.await.map_err(|error| no_cipher(&error))
}

async fn unwrapped(wrapped: &[u8], wrapping: &JsValue) -> Result<JsValue, JsValue> {
    let arguments = [
        "raw".into(),
        Uint8Array::from(wrapped).into(),
        wrapping.clone(),
        "AES-KW".into(),
        named("AES-GCM").into(),
        false.into(),
        uses(&["decrypt"]),
    ];
    ask("unwrapKey", &arguments).await
}

async fn file_key(bytes: &Uint8Array) -> Result<FileKey, Unopened> {
    let key = raw_key(
        &bytes.to_vec(),
        &named("AES-GCM"),
        &["encrypt", "decrypt"],
        false,
    )
    .await;
    key.map(FileKey).map_err(|error| no_cipher(&error))
}

async fn raw_key(
    bytes: &[u8],
    algorithm: &Object,
    used_to: &[&str],
    can_leave: bool,
) -> Result<JsValue, JsValue> {
    let bytes = Uint8Array::from(bytes);
    let algorithm = algorithm.into();
    let arguments = [
        "raw".into(),
        bytes.into(),
        algorithm,
        can_leave.into(),
        uses(used_to),
    ];
    ask("importKey", &arguments).await
}

fn cipher(iv: &[u8], head: &str) -> JsValue {
    let cipher = named("AES-GCM");
    set(&cipher, "iv", &Uint8Array::from(iv));
    set(
        &cipher,
        "additionalData",
        &Uint8Array::from(head.as_bytes()),
    );
    cipher.into()
}

fn named(name: &str) -> Object {
    let object = Object::new();
    set(&object, "name", &name.into());
    object
}

fn set(object: &Object, name: &str, value: &JsValue) {
    let set = Reflect::set(object, &name.into(), value);
    debug_assert!(set.is_ok(), "a fresh plain object takes it");
}

fn uses(names: &[&str]) -> JsValue {
    let uses: Array = names.iter().map(|name| JsValue::from_str(name)).collect();
    uses.into()
}

/// Asks the browser's ciphers (Web Cryptography API, `SubtleCrypto`). All calls go through here: a binding for each would cost more bytes.
async fn ask(method: &str, arguments: &[JsValue]) -> Result<JsValue, JsValue> {
    let subtle = Reflect::get(&window().crypto()?.into(), &"subtle".into())?;
    let function: Function = Reflect::get(&subtle, &method.into())?.dyn_into()?;
    let arguments: Array = arguments.iter().collect();
    let asked: Promise = function.apply(&subtle, &arguments)?.dyn_into()?;
    JsFuture::from(asked).await
}

#[cfg(test)]
mod tests;
