//! What is kept and exchanged.
