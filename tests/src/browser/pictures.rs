//! Screen sizes, colour schemes and pictures of the screen.

use serde_json::json;

use super::access::Theme;
use super::failure::{Failure, Outcome};
use super::setup::Setup;
use super::tab::Tab;

/// Width and height of the phone of the design pictures, in CSS pixels.
const PHONE: (u32, u32) = (390, 844);
/// The desktop of the design pictures.
const DESKTOP: (u32, u32) = (1280, 800);

impl Tab {
    /// Makes the page as large as a phone's; as near as the engine allows, where windows have a least
    /// width.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn phone_sized(&self) -> Outcome<()> {
        self.sized(PHONE).await
    }

    /// Makes the page as large as a desktop's.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn desktop_sized(&self) -> Outcome<()> {
        self.sized(DESKTOP).await
    }

    /// Makes the page as large as a small old phone's: 320 × 640.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn small_sized(&self) -> Outcome<()> {
        self.sized((320, 640)).await
    }

    /// Makes the page so wide and so high, as near as the engine allows.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn sized(&self, (width, height): (u32, u32)) -> Outcome<()> {
        if self.engine().can().devtools {
            let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
            self.devtools("Emulation.setDeviceMetricsOverride", size)
                .await?;
            return Ok(());
        }
        self.focus().await?;
        let frame: (u32, u32) = self
            .ask("return [Math.max(0, outerWidth - innerWidth), Math.max(0, outerHeight - innerHeight)]")
            .await?;
        self.session()
            .set_window_rect(0, 0, width + frame.0, height + frame.1)
            .await?;
        Ok(())
    }

    /// Sets the system's colour scheme. Only where the engine speaks the devtools protocol.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn theme(&self, theme: Theme) -> Outcome<()> {
        let features = json!({ "features": [
            { "name": "prefers-color-scheme", "value": theme.name() },
            { "name": "prefers-reduced-motion", "value": "reduce" },
        ] });
        self.devtools("Emulation.setEmulatedMedia", features)
            .await?;
        Ok(())
    }

    /// Takes one picture of the present screen as it stands, if somebody asked for pictures.
    ///
    /// # Errors
    /// When it cannot be taken or written.
    pub async fn picture(&self, name: &str) -> Outcome<()> {
        let Some(folder) = Setup::shots() else {
            return Ok(());
        };
        let trouble = || Failure::system("cannot write a picture");
        std::fs::create_dir_all(&folder).map_err(trouble())?;
        let picture = self.session().screenshot_as_png().await?;
        std::fs::write(folder.join(format!("{name}.png")), picture).map_err(trouble())
    }

    /// Takes pictures of the present screen, phone and desktop, light and dark, if somebody asked for
    /// pictures. Ends in phone size and light.
    ///
    /// # Errors
    /// When a picture cannot be taken or written.
    pub async fn pictures(&self, name: &str) -> Outcome<()> {
        if Setup::shots().is_none() {
            return Ok(());
        }
        for theme in Theme::ALL {
            self.theme(theme).await?;
            for (size, device) in [(DESKTOP, "desktop"), (PHONE, "phone")] {
                self.sized(size).await?;
                self.picture(&format!("{name}-{device}-{}", theme.name()))
                    .await?;
            }
        }
        self.theme(Theme::Light).await
    }
}
