//! Files from one database into another: the book in parts, sealed or not, and pictures.

use super::{begin, buy, fresh, opened, saved, stored};
use crate::shell::bring::{self, Unread};
use crate::shell::db::{BLOBS, CHANGES, Db};
use crate::shell::picture_files;
use crate::shell::sealed::Passphrase;
use crate::shell::source::{Chosen, Source, look_at};
use crate::shell::written::{Writing, Written};
use haulwren_core::book::{Command, State, ThingCommand};
use haulwren_core::change::Vector;
use haulwren_core::exchange::{FileKind, Header, PhotoHeader, sha256};
use haulwren_core::id::ThingId;
use js_sys::{Array, Uint8Array};
use std::cell::RefCell;
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::Blob;

const QUIET: &dyn Fn(usize, usize) = &|_, _| {};

/// A database with a book of some purchases, more than one page of changes.
async fn phone(purchases: i64) -> (Db, RefCell<State>) {
    let db = fresh().await;
    let book = opened(&db).await;
    saved(&db, &book, begin()).await;
    for cents in 1..=purchases {
        saved(&db, &book, buy(cents)).await;
    }
    (db, book)
}

fn header(book: &RefCell<State>) -> Header {
    let book = book.borrow();
    let (id, currency) = book.book().expect("it has begun");
    Header::new(id, currency, book.me, book.vector.clone())
}

async fn files_of(
    db: &Db,
    book: &RefCell<State>,
    have: Vector,
    passphrase: Option<&Passphrase>,
) -> Vec<Written> {
    let mut writing = Writing::new(passphrase);
    let written = writing.book(db, header(book), have, QUIET).await;
    written.expect("it is written");
    writing.named("book", "2026-11-29")
}

async fn plain(file: &Blob) -> Source {
    match look_at(file.clone()).await.expect("a file") {
        Chosen::Plain(source) => source,
        Chosen::Locked(_) => panic!("it is not sealed"),
    }
}

async fn taken(db: &Db, book: &RefCell<State>, source: &Source) -> Result<usize, Unread> {
    let found = bring::read(db, book, source, QUIET).await?;
    bring::take(db, book, &found, QUIET).await?;
    Ok(found.incoming.changes.len())
}

#[wasm_bindgen_test]
async fn a_book_goes_from_one_storage_into_another() {
    let (db, book) = phone(5).await;
    // A change that is only laid beside does not go along.
    let mut change = stored(&db).await[0].clone();
    (change.key.device, change.key.seq) = ("zzzzzzzz".parse().expect("a code"), 1);
    change.stamp.device = change.key.device;
    let beside = db.relaxed(&[CHANGES]).expect("a transaction");
    let row = [
        ("k", &*change.key.to_string()),
        ("s", &change.stamp.to_string()),
        ("t", &change.line()),
        ("i", "1"),
    ];
    beside.put(CHANGES, &row).expect("put");
    beside.complete().await.expect("laid beside");
    let files = files_of(&db, &book, Vector::default(), None).await;
    assert_eq!(files.len(), 1);
    assert_eq!(files[0].name, "haulwren-book-2026-11-29.txt");
    let other = fresh().await;
    let there = opened(&other).await;
    let source = plain(&files[0].blob).await;
    assert_eq!(source.kind().await.expect("a kind"), FileKind::Book);
    let count = taken(&other, &there, &source).await.expect("taken");
    let mut ours = stored(&db).await;
    ours.retain(|one| *one != change);
    assert_eq!((count, stored(&other).await), (ours.len(), ours));

    // Then only what changed.
    let have = there.borrow().vector.clone();
    let bought = saved(&db, &book, buy(700)).await;
    let files = files_of(&db, &book, have, None).await;
    let source = plain(&files[0].blob).await;
    let count = taken(&other, &there, &source).await.expect("taken");
    assert_eq!(count, bought.len());
}

#[wasm_bindgen_test]
async fn a_sealed_book_opens_by_its_passphrase() {
    let (db, book) = phone(2).await;
    let passphrase = Passphrase::of("otter brass").expect("a passphrase");
    let files = files_of(&db, &book, Vector::default(), Some(&passphrase)).await;
    let other = fresh().await;
    let there = opened(&other).await;
    let Ok(Chosen::Locked(locked)) = look_at(files[0].blob.clone()).await else {
        panic!("it is sealed");
    };
    let wrong = Passphrase::of("otter").expect("a passphrase");
    assert!(matches!(
        locked.open(&wrong).await,
        Err(Unread::Unopened(_))
    ));
    let source = locked.open(&passphrase).await.expect("it opens");
    taken(&other, &there, &source).await.expect("taken");
    assert_eq!(stored(&other).await, stored(&db).await);
}

/// A thing with a picture whose bytes are here, and one whose bytes are not.
#[wasm_bindgen_test]
async fn pictures_go_where_the_book_names_them() {
    let (db, book) = phone(1).await;
    let thing = ThingId(*book.borrow().tables.things.keys().next().expect("a thing"));
    let bytes = [7_u8; 5_000];
    let name = sha256(&bytes);
    for blob in [name.clone(), sha256(b"elsewhere")] {
        let command: Command = ThingCommand::AddPhoto { thing, blob }.into();
        saved(&db, &book, command).await;
    }
    let put = db.strict(&[BLOBS]).expect("a transaction");
    let unnamed = Uint8Array::from([1_u8, 2, 3].as_slice());
    for (key, bytes) in [
        (&name, Uint8Array::from(bytes.as_slice())),
        (&sha256(&[1, 2, 3]), unnamed),
    ] {
        put.put_bytes(BLOBS, key, &bytes, "image/jpeg")
            .expect("put");
    }
    put.complete().await.expect("kept");

    let passphrase = Passphrase::of("otter brass").expect("a passphrase");
    let mut writing = Writing::new(Some(&passphrase));
    let of = header(&book);
    let of = PhotoHeader {
        book: of.book,
        sender: of.sender,
    };
    let named = picture_files::named(&book.borrow());
    assert_eq!(named.len(), 2);
    writing
        .photos(&db, of, &named, QUIET)
        .await
        .expect("written");
    let photos = writing.named("photos", "2026-11-29");
    assert_eq!(photos.len(), 1);
    let source = match look_at(photos[0].blob.clone()).await.expect("a file") {
        Chosen::Locked(locked) => locked.open(&passphrase).await.expect("it opens"),
        Chosen::Plain(_) => panic!("it is sealed"),
    };
    assert_eq!(source.kind().await.expect("a kind"), FileKind::Photos);

    let other = fresh().await;
    let there = opened(&other).await;
    // Before the book is there, they are nobody's.
    let early = picture_files::read(&other, &there, &source, QUIET).await;
    assert!(matches!(early, Err(Unread::Unfit(_))));
    let files = files_of(&db, &book, Vector::default(), None).await;
    taken(&other, &there, &plain(&files[0].blob).await)
        .await
        .expect("taken");
    let found = picture_files::read(&other, &there, &source, QUIET)
        .await
        .expect("read");
    assert_eq!(
        (found.new.as_slice(), found.here, found.unnamed),
        ([name.clone()].as_slice(), 0, 0)
    );
    assert!(!other.has(BLOBS, &name).await.expect("looked up"));
    picture_files::take(&other, &there, &found, QUIET)
        .await
        .expect("kept");
    let kept = other
        .bytes(BLOBS, &name)
        .await
        .expect("looked up")
        .expect("it is there");
    assert_eq!(kept.to_vec(), bytes);
    let again = picture_files::read(&other, &there, &source, QUIET)
        .await
        .expect("read");
    assert_eq!((again.new.len(), again.here), (0, 1));
}

/// Changes by the thousand, read in pages by their stamps: none is left out, none comes twice.
#[wasm_bindgen_test]
async fn a_long_book_goes_whole() {
    let (db, book) = phone(1).await;
    let ours = stored(&db).await;
    let (first, state) = (
        ours.last().expect("a change").clone(),
        book.borrow().clone(),
    );
    let mut last = state;
    let put = db.relaxed(&[CHANGES]).expect("a transaction");
    for _ in 0..4_500 {
        let mut change = first.clone();
        change.key.seq = last.head() + 1;
        change.save = change.key.seq;
        // As a hybrid clock counts within one millisecond, and beyond.
        change.stamp.counter = u16::try_from(change.key.seq).expect("a few");
        last.note(change.key, change.stamp);
        let row = [
            ("k", change.key.to_string()),
            ("r", change.record().to_string()),
            ("s", change.stamp.to_string()),
            ("t", change.line()),
        ];
        put.put(
            CHANGES,
            &row.each_ref().map(|(key, value)| (*key, &**value)),
        )
        .expect("put");
    }
    put.complete().await.expect("kept");
    book.replace(last);
    let files = files_of(&db, &book, Vector::default(), None).await;
    let other = fresh().await;
    let there = opened(&other).await;
    let found = bring::read(&other, &there, &plain(&files[0].blob).await, QUIET).await;
    let found = found.expect("read");
    assert_eq!(found.incoming.changes.len(), ours.len() + 4_500);
    assert_eq!(found.incoming.sender_has, book.borrow().vector);
}

#[wasm_bindgen_test]
async fn what_is_no_file_of_ours_is_said() {
    let db = fresh().await;
    let book = opened(&db).await;
    for text in ["", "eyJ", "eyJhbGciOiJkaXIifQ.\n", "day,thing\n"] {
        let file = Blob::new_with_str_sequence(&Array::of1(&text.into())).expect("a file");
        let refused = match look_at(file).await {
            Ok(Chosen::Plain(source)) => bring::read(&db, &book, &source, QUIET).await.err(),
            Ok(Chosen::Locked(_)) => None,
            Err(why) => Some(why),
        };
        assert!(refused.is_some(), "{text}");
    }
    assert_eq!(book.borrow().head(), 0);
}
