//! Pictures to another device: first it says on which one they are, then a file brings them.

use haulwren_tests::browser::{Browser, Failure, Outcome, Tab};

use crate::common::{Stall, downloaded, forget_downloads};
use crate::two_devices::open_files;

/// The device that opened the phone's book shows this thing's picture once it has the phone's pictures.
pub async fn come_too(phone: &Stall, tab: &Tab, browser: &Browser, thing: &str) -> Outcome<()> {
    look_for(tab, thing).await?;
    // Both are called after their pointers.
    let elsewhere = "return [...document.querySelectorAll('.photo p')].some((e) => /^This picture is on (Phone|Computer)\\.$/.test(e.textContent))";
    tab.until("where the picture is", elsewhere).await?;
    let pictures = sent(phone).await?;
    open_files(tab).await?;
    let path = browser.downloads().join("pictures.txt");
    std::fs::write(&path, pictures).map_err(Failure::system("cannot write the file"))?;
    tab.choose_file("[data-bring] input[type=file]", &path)
        .await?;
    tab.expect_said(&["new in this file: 1 picture."]).await?;
    tab.tap("[data-bring-in]").await?;
    tab.expect_said(&["the pictures are on this device: 1."])
        .await?;
    look_for(tab, thing).await?;
    let drawn = "const e = document.querySelector('img[data-picture]'); return e !== null && e.complete && e.naturalWidth > 0";
    tab.until("the picture", drawn).await
}

async fn look_for(tab: &Tab, thing: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", thing).await
}

/// The phone's pictures: the second of the two files that it makes.
async fn sent(phone: &Stall) -> Outcome<String> {
    let tab = &phone.tab;
    tab.screen("#/settings").await?;
    tab.press_in(
        "[data-how]",
        "How: what changed, no pictures, no passphrase",
    )
    .await?;
    tab.tap("[data-how] fieldset:nth-of-type(2) label:last-child")
        .await?;
    tab.press("Send to another device").await?;
    tab.expect_said(&["the files are ready"]).await?;
    let folder = phone.browser.downloads();
    forget_downloads(&folder)?;
    let downloads = tab.engine().can().downloads;
    if !downloads {
        tab.note_given().await?;
    }
    tab.press("Save haulwren-photos-").await?;
    tab.expect_said(&["among your downloads"]).await?;
    if downloads {
        downloaded(tab, &folder).await
    } else {
        tab.given().await
    }
}
