//! Another try, some seconds after something could not be kept.

use leptos::prelude::*;
use std::rc::Rc;
use std::time::Duration;

/// From a failure to the next try.
const AGAIN: Duration = Duration::from_secs(3);

/// Owns the next try: what is to be done then is said once, and whoever fails asks for it. However many ask, one try
/// is on its way at a time.
#[derive(Clone, Copy)]
pub struct Again {
    act: StoredValue<Option<Rc<dyn Fn()>>, LocalStorage>,
    /// A try is on its way.
    waits: StoredValue<bool>,
}

impl Again {
    /// Nothing is to be tried.
    pub fn new() -> Self {
        Self { act: StoredValue::new_local(None), waits: StoredValue::new(false) }
    }

    /// What a try does.
    pub fn does(self, act: impl Fn() + 'static) {
        self.act.set_value(Some(Rc::new(act)));
    }

    /// Tries some seconds from now.
    pub fn later(self) {
        if self.waits.get_value() {
            return;
        }
        self.waits.set_value(true);
        let again = move || {
            self.waits.set_value(false);
            if let Some(act) = self.act.get_value() {
                act();
            }
        };
        set_timeout(again, AGAIN);
    }
}
