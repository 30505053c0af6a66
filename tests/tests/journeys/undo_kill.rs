//! Killed in the middle of taking an import out again: afterwards all of the file is in the book or nothing of it, the own book is whole,
//! and the file can be brought in once more.

use haulwren_tests::browser::{Engine, Outcome, wrong};

use crate::import_kill::{Holds, Home, Step, step};

journeys!(no_kill_halves_an_undo => in_chromium Chromium, in_firefox Firefox);

/// One after the other on one profile: where all of it is out, it is brought in again for the next.
const STEPS: [Step; 7] = [
    step("nothing is noted", "noting", 1, Holds::All),
    step("it is noted, not committed", "commit", 1, Holds::All),
    step("right at that commit", "committed", 1, Holds::Either),
    step(
        "it is committed, nothing is folded",
        "fold",
        1,
        Holds::Nothing,
    ),
    step(
        "half of it is folded without the file",
        "fold",
        550,
        Holds::Nothing,
    ),
    step(
        "half of the file\u{2019}s changes are gone",
        "out",
        550,
        Holds::Nothing,
    ),
    step("all is out, that is not noted", "done", 1, Holds::Nothing),
];

/// Stops the page for good at a step: `noting` is before the note that the import is being undone, `commit` and `committed` before and after
/// that transaction's commit is asked for; `fold` puts or removes a record after it, `out` removes a change; `done` notes the end.
const STOP: &str = r#"
const [step, time] = arguments;
let left = time, noting = null;
const reach = (what) => {
  if (what !== step || --left > 0) return;
  const asked = new XMLHttpRequest();
  asked.open("POST", `/__ack/${what}`, false);
  asked.send();
};
const { put, delete: remove } = IDBObjectStore.prototype, commit = IDBTransaction.prototype.commit;
IDBObjectStore.prototype.put = function (row, ...more) {
  if (this.name === "meta" && row.k === "imports") {
    if (row.v.includes("undoing")) {
      noting = this.transaction;
      reach("noting");
    } else if (noting) reach("done");
  }
  if (this.name === "records" && noting) reach("fold");
  return put.call(this, row, ...more);
};
IDBObjectStore.prototype.delete = function (...which) {
  if (this.name === "records" && noting) reach("fold");
  if (this.name === "changes" && noting) reach("out");
  return remove.apply(this, which);
};
IDBTransaction.prototype.commit = function () {
  const is_it = this === noting;
  if (is_it) reach("commit");
  const result = commit.call(this);
  if (is_it) reach("committed");
  return result;
};
"#;

async fn no_kill_halves_an_undo(engine: Engine) -> Outcome<()> {
    let mut home = Home::set_up(engine).await?;
    let (before, known) = home.before().await?;
    home.once_more(false).await?;
    for step in STEPS {
        let tab = home.tab().await?;
        home.killed_by("[data-undo-import]", &tab, STOP, step)
            .await?;
        if !home.expect(step, &before, known).await? {
            home.once_more(false).await?;
        }
    }
    let (after, _) = home.before().await?;
    if let Some(lost) = before.iter().find(|change| !after.contains(change)) {
        return wrong(format!("lost at the end: {lost}"));
    }
    Ok(())
}
