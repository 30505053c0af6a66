//! The save protocol against a real database, in a real browser.

mod files;

use super::clock;
use super::db::{CHANGES, Db, META, RECORDS, text};
use super::save::{Unsaved, catch_up, history, save};
use super::start;
use futures::future::join;
use haulwren_core::book::{Bought, Command, Context, Edits, Purchase, Refusal, State};
use haulwren_core::change::{Change, GONE, RecordKey};
use haulwren_core::kind::RecordKind;
use haulwren_core::money::{Currency, Money};
use std::cell::RefCell;
use uuid::Uuid;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// A database of its own for each test: runs never meet.
async fn fresh() -> Db {
    let name = format!("haulwren-test:{}", u64::from_le_bytes(clock::chance()));
    Db::open_as(&name).await.expect("a database opens")
}

async fn opened(db: &Db) -> RefCell<State> {
    let state = RefCell::new(start::begin(db, |_, _| {}).await.expect("a book opens"));
    start::rest(db, &state).await.expect("the rest is read");
    state
}

fn plan(command: Command) -> impl Fn(&State) -> Result<Vec<Edits>, Refusal> {
    move |state| {
        state.decide(
            &command,
            &mut Context {
                at: clock::now(),
                chance: &mut || clock::chance(),
            },
        )
    }
}

fn begin() -> Command {
    Command::Begin {
        currency: Currency::from_code("USD").expect("a currency"),
        device: "Phone".into(),
    }
}

fn buy(cents: i64) -> Command {
    let thing = Bought {
        name: format!("thing {cents}"),
        ..Bought::default()
    };
    Command::Buy(Purchase::of_one(Money::new(cents), thing))
}

async fn saved(db: &Db, book: &RefCell<State>, command: Command) -> Vec<Change> {
    save(db, book, &plan(command), clock::now(), true)
        .await
        .expect("it is saved")
        .changes
}

async fn stored(db: &Db) -> Vec<Change> {
    let mut changes = Vec::new();
    let read = db.each(CHANGES, "", "~", |row| {
        changes.push(Change::from_line(&text(row, "t").expect("a line")).expect("a change"));
        Ok(())
    });
    read.await.expect("changes are read");
    changes
}

#[wasm_bindgen_test]
async fn what_was_saved_is_there_when_the_book_opens_again() {
    let db = fresh().await;
    let book = opened(&db).await;
    saved(&db, &book, begin()).await;
    let bought = saved(&db, &book, buy(600)).await;
    let again = opened(&db).await;
    assert_eq!(*again.borrow(), *book.borrow());
    let changes = stored(&db).await;
    let anew = State::from_changes(again.borrow().me, &changes);
    assert_eq!(*again.borrow(), anew);
    assert_eq!(
        history(&db, &bought[1].record()).await.expect("history"),
        &bought[1..]
    );
}

/// Whether it is read early or late: none is forgotten.
#[wasm_bindgen_test]
async fn a_record_of_every_kind_is_there_when_the_book_opens_again() {
    let db = fresh().await;
    let book = opened(&db).await;
    saved(&db, &book, begin()).await;
    let id = Uuid::from_u128(7);
    let record = |kind: &RecordKind| RecordKey {
        kind: kind.clone(),
        id,
    };
    let plan = |_: &State| {
        let edits = RecordKind::ALL.iter().map(|kind| Edits {
            record: record(kind),
            set: [(GONE.to_owned(), true.into())].into_iter().collect(),
        });
        Ok(edits.collect())
    };
    let done = save(&db, &book, &plan, clock::now(), true).await;
    done.expect("it is saved");
    let again = opened(&db).await;
    for kind in RecordKind::ALL {
        let stored = again.borrow().stored(&record(kind));
        assert!(stored.is_some(), "{kind}");
    }
    assert_eq!(*again.borrow(), *book.borrow());
}

#[wasm_bindgen_test]
async fn a_refusal_writes_nothing() {
    let db = fresh().await;
    let book = opened(&db).await;
    let refused = save(&db, &book, &plan(buy(600)), clock::now(), true).await;
    assert!(matches!(refused, Err(Unsaved::Refused(Refusal::NotBegun))));
    assert_eq!(stored(&db).await, []);
    assert_eq!(book.borrow().head(), 0);
}

#[wasm_bindgen_test]
async fn saves_at_once_follow_one_another() {
    let db = fresh().await;
    let (left, right) = (opened(&db).await, opened(&db).await);
    saved(&db, &left, begin()).await;
    for cents in 1..=5 {
        let two = join(
            saved(&db, &left, buy(cents)),
            saved(&db, &left, buy(10 * cents)),
        );
        join(two, saved(&db, &right, buy(100 * cents))).await;
    }
    catch_up(&db, &left).await.expect("caught up");
    catch_up(&db, &right).await.expect("caught up");
    assert_eq!(*left.borrow(), *right.borrow());
    let changes = stored(&db).await;
    let numbers: Vec<u64> = changes.iter().map(|change| change.key.seq).collect();
    assert_eq!(numbers, (1..=2 + 15 * 2).collect::<Vec<_>>());
    let anew = State::from_changes(left.borrow().me, &changes);
    assert_eq!(*left.borrow(), anew);
}

#[wasm_bindgen_test]
async fn two_tabs_leave_no_hole_and_no_double_and_agree() {
    let db = fresh().await;
    let (left, right) = (opened(&db).await, opened(&db).await);
    saved(&db, &left, begin()).await;
    for cents in 1..=20 {
        // Neither reads the other's saves but through the protocol.
        saved(&db, &left, buy(cents)).await;
        saved(&db, &right, buy(100 * cents)).await;
        saved(&db, &right, buy(100 * cents + 1)).await;
    }
    catch_up(&db, &left).await.expect("caught up");
    assert_eq!(*left.borrow(), *right.borrow());
    let changes = stored(&db).await;
    let numbers: Vec<u64> = changes.iter().map(|change| change.key.seq).collect();
    assert_eq!(numbers, (1..=2 + 60 * 2).collect::<Vec<_>>());
    assert!(changes.is_sorted_by_key(|change| change.stamp));
    assert_eq!(
        *left.borrow(),
        State::from_changes(left.borrow().me, &changes)
    );
}

#[wasm_bindgen_test]
async fn another_fold_number_folds_everything_again() {
    let db = fresh().await;
    let book = opened(&db).await;
    saved(&db, &book, begin()).await;
    let bought = saved(&db, &book, buy(600)).await;
    let spoil = db.strict(&[META, RECORDS]).expect("a transaction");
    spoil
        .put(META, &[("k", "fold"), ("v", "0")])
        .expect("a note");
    spoil
        .put(
            RECORDS,
            &[
                ("k", &bought[1].record().to_string()),
                ("j", "{\"set\":{}}"),
            ],
        )
        .expect("a spoilt record");
    spoil.complete().await.expect("spoilt");
    assert_eq!(*opened(&db).await.borrow(), *book.borrow());
}

#[wasm_bindgen_test]
async fn a_save_before_all_is_read_keeps_what_its_record_holds() {
    let db = fresh().await;
    let book = opened(&db).await;
    saved(&db, &book, begin()).await;
    let bought = saved(&db, &book, buy(600)).await;
    // Another tab, whose things are still on their way.
    let half = start::begin(&db, |_, _| {}).await.expect("a book begins");
    let half = RefCell::new(half);
    let history = stored(&db).await;
    let plan = |_: &State| haulwren_core::book::undo(&bought, &history);
    save(&db, &half, &plan, clock::now(), false)
        .await
        .expect("it is saved");
    let again = opened(&db).await;
    let changes = stored(&db).await;
    let anew = State::from_changes(again.borrow().me, &changes);
    assert_eq!(*again.borrow(), anew);
}

#[wasm_bindgen_test]
async fn an_aborted_transaction_is_an_error() {
    let db = fresh().await;
    let transaction = db.strict(&[META]).expect("a transaction");
    transaction
        .put(META, &[("k", "note"), ("v", "1")])
        .expect("put");
    transaction.abort().expect("aborted");
    assert_eq!(db.meta("note").await.expect("read"), None);
}
