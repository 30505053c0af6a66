//! The trade, pure.
