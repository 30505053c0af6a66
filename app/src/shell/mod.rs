//! One file for each concern of the browser: storage, saving, other tabs, the clock, files. No logic of the trade.

pub mod bring;
pub mod clock;
pub mod db;
pub mod device;
pub mod doubt;
pub mod drafts;
pub mod erase;
pub mod fault;
pub mod files;
pub mod lock;
pub mod page;
pub mod picture;
pub mod picture_files;
pub mod recover;
pub mod room;
pub mod save;
pub mod scope;
pub mod sealed;
pub mod second;
pub mod source;
pub mod start;
pub mod tabs;
pub mod theme;
pub mod written;

#[cfg(test)]
mod tests;
