//! Child processes in process groups of their own, so that a browser dies with all its helpers at once.

use std::fs::File;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process, kill_process_group};

use super::failure::{Failure, Outcome};

/// A started program and everything that it starts. Killed as a whole when dropped.
pub(crate) struct Group {
    name: String,
    child: Child,
    alive: Killer,
    log: PathBuf,
}

/// Kills a group from any thread, also while its owner waits for something else. Harmless once the
/// group's first process was collected: its number may then belong to another.
#[derive(Clone)]
pub struct Killer(Arc<Mutex<Option<Pid>>>);

impl Killer {
    /// Sends SIGKILL to every process of the group.
    pub fn kill(&self) {
        self.send(Signal::KILL);
    }

    fn send(&self, signal: Signal) {
        let pid = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(pid) = *pid {
            // The only error possible here is that nobody of the group is left, which is what is wanted.
            let _ = kill_process_group(pid, signal);
        }
    }
}

impl Group {
    /// Starts a program; what it prints goes to `log`.
    pub(crate) fn start(name: &str, command: &mut Command, log: &Path) -> Outcome<Self> {
        let trouble = |what: &str| Failure::system(format!("{what} {name}"));
        let out = File::create(log).map_err(trouble("cannot open the log of"))?;
        let err = out.try_clone().map_err(trouble("cannot open the log of"))?;
        let child = command
            .stdin(Stdio::null())
            .stdout(out)
            .stderr(err)
            .process_group(0)
            .spawn()
            .map_err(trouble("cannot start"))?;
        Ok(Self {
            name: name.to_owned(),
            alive: Killer(Arc::new(Mutex::new(Some(Pid::from_child(&child))))),
            child,
            log: log.to_owned(),
        })
    }

    /// A handle that kills this group.
    pub(crate) fn killer(&self) -> Killer {
        self.alive.clone()
    }

    /// The exit status, once the group's first process has ended.
    pub(crate) fn ended(&mut self) -> Outcome<Option<ExitStatus>> {
        let trouble = Failure::system(format!("cannot ask after {}", self.name));
        self.child.try_wait().map_err(trouble)
    }

    /// What the program has printed so far.
    pub(crate) fn printed(&self) -> String {
        std::fs::read_to_string(&self.log).unwrap_or_else(|problem| format!("(no log: {problem})"))
    }

    /// Asks the first process to end in an orderly way, and kills what has not ended after `patience`.
    pub(crate) async fn end(mut self, patience: Duration) -> Outcome<()> {
        // An error means that it has ended already.
        let _ = kill_process(Pid::from_child(&self.child), Signal::TERM);
        let deadline = Instant::now() + patience;
        while self.ended()?.is_none() && Instant::now() < deadline {
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
        Ok(())
    }

    fn kill_and_collect(&mut self) {
        self.alive.kill();
        let mut pid = self.alive.0.lock().unwrap_or_else(PoisonError::into_inner);
        // Collecting cannot fail for a child that was not collected before; afterwards it is remembered.
        drop(self.child.wait());
        *pid = None;
    }
}

impl Drop for Group {
    fn drop(&mut self) {
        self.kill_and_collect();
    }
}
