//! Scripts from npm that the tests and the benches put into pages, or run beside them: each kept by version beside the build tools, and in nothing that is
//! served.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::fail::{Done, While, fail};
use crate::places::Places;
use crate::run::run;

/// One script of a package.
pub struct Script {
    package: &'static str,
    version: &'static str,
    /// The script in it.
    file: &'static str,
}

/// The accessibility checker.
pub const AXE: Script = Script {
    package: "axe-core",
    version: "4.14.1",
    file: "axe.min.js",
};

/// Decimal arithmetic, for the bench's peer.
pub const DECIMAL: Script = Script {
    package: "decimal.js",
    version: "10.6.0",
    file: "decimal.js",
};

/// Sealed files by somebody else's code.
pub const JOSE: Script = Script {
    package: "jose",
    version: "6.2.18",
    file: "dist/webapi/index.js",
};

/// Two libraries that merge documents, for the bench of a large book.
pub const AUTOMERGE: Script = Script {
    package: "@automerge/automerge",
    version: "3.5.0",
    file: "dist/cjs/fullfat_node.cjs",
};

/// The other one.
pub const YJS: Script = Script {
    package: "yjs",
    version: "13.6.33",
    file: "dist/yjs.cjs",
};

impl Script {
    fn folder(&self, places: &Places) -> PathBuf {
        let name = format!("{}-{}", self.package.replace('/', "-"), self.version);
        places.tools.join(name)
    }

    /// Where it is kept, whether it is there yet or not.
    pub fn path(&self, places: &Places) -> PathBuf {
        let within = Path::new("node_modules").join(self.package);
        self.folder(places).join(within).join(self.file)
    }

    /// Its path, after bringing it where needed.
    ///
    /// # Errors
    /// When npm is missing or does not bring it.
    pub fn ensure(&self, places: &Places) -> Done<PathBuf> {
        let path = self.path(places);
        if path.is_file() {
            return Ok(path);
        }
        let folder = self.folder(places);
        std::fs::create_dir_all(&folder).or_fail(format!("making {}", folder.display()))?;
        let mut install = Command::new("npm");
        install
            .args([
                "install",
                "--no-save",
                "--ignore-scripts",
                "--no-audit",
                "--no-fund",
                "--prefix",
            ])
            .arg(&folder)
            .arg(format!("{}@{}", self.package, self.version));
        run(&mut install)?;
        if path.is_file() {
            return Ok(path);
        }
        fail(format!("npm did not bring {}", path.display()))
    }
}
