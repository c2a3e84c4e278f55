//! Records: put in when each has its test.
