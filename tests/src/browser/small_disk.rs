//! A disk of its own that is really full at times: a small file system in memory under a browser's profile.

use std::fs::{File, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::failure::{Failure, Outcome};

/// A mounted file system. Gone when dropped.
pub(crate) struct SmallDisk {
    folder: PathBuf,
}

impl SmallDisk {
    /// Mounts one of so many MiB over an empty folder. `None` where the system does not let us.
    pub(crate) fn over(folder: &Path, mebibytes: u32) -> Option<Self> {
        let mut mount = Command::new("mount");
        mount
            .args(["-t", "tmpfs", "-o", &format!("size={mebibytes}m"), "tmpfs"])
            .arg(folder)
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        let is_mounted = mount.status().is_ok_and(|status| status.success());
        is_mounted.then(|| Self {
            folder: folder.to_owned(),
        })
    }

    fn filler(&self) -> PathBuf {
        self.folder.join("filler")
    }

    /// Fills it to the last byte but so many.
    pub(crate) fn fill(&self, but: u64) -> Outcome<()> {
        let trouble = || Failure::system("cannot fill the small disk");
        let path = self.filler();
        let mut options = OpenOptions::new();
        let mut file = options
            .create(true)
            .append(true)
            .open(&path)
            .map_err(trouble())?;
        for size in [1 << 20, 4096, 64, 1] {
            let some = vec![b'x'; size];
            // It ends with the error that this is about.
            while matches!(file.write(&some), Ok(written) if written > 0) {}
        }
        let length = file.metadata().map_err(trouble())?.len();
        file.set_len(length.saturating_sub(but)).map_err(trouble())
    }

    /// Makes room again.
    pub(crate) fn free(&self) -> Outcome<()> {
        // To nothing first: its room is then free whoever still looks at it.
        File::create(self.filler()).map_err(Failure::system("cannot free the small disk"))?;
        std::fs::remove_file(self.filler()).map_err(Failure::system("cannot free the small disk"))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        // Lazily: a process of the browser may be a moment late in leaving it. An error would leave it mounted until the system ends; nothing
        // better can be done here.
        let mut unmount = Command::new("umount");
        drop(unmount.arg("-l").arg(&self.folder).status());
    }
}
