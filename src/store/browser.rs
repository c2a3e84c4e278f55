//! The thin half that touches the browser: its storage, its share sheet, its clock and its dice.
//!
//! Nothing here panics where a browser refuses something: every door is tried, and a closed one is
//! [`Trouble`] or `None`.

use super::{Backend, Trouble};
use gloo_storage::Storage as _;
use js_sys::{Array, Function, Reflect};
use serde::Deserialize;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, Event, File, FilePropertyBag, HtmlAnchorElement, ShareData, Storage, StorageEvent,
};

/// The exact type under which browsers let a page be shared; the charset stands in the page itself.
const HTML: &str = "text/html";

/// How long a download may take to start reading, in milliseconds.
const DOWNLOAD_STARTS_WITHIN: i32 = 60_000;

/// The browser's local storage.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalStorage;

impl Backend for LocalStorage {
    fn read(&self, key: &str) -> Result<Option<String>, Trouble> {
        open()?.get_item(key).map_err(|error| trouble(&error))
    }

    fn write(&self, key: &str, text: &str) -> Result<(), Trouble> {
        open()?.set_item(key, text).map_err(|error| trouble(&error))
    }

    fn remove(&self, key: &str) -> Result<(), Trouble> {
        open()?.remove_item(key).map_err(|error| trouble(&error))
    }

    fn keys(&self) -> Result<Vec<String>, Trouble> {
        let storage = open()?;
        let length = storage.length().map_err(|error| trouble(&error))?;
        let mut keys = Vec::new();
        for index in 0..length {
            keys.extend(storage.key(index).map_err(|error| trouble(&error))?);
        }
        Ok(keys)
    }
}

/// The storage, if the browser gives it. Merely asking throws where site data is blocked, and gloo
/// would end the page then; so it is asked for here first.
fn open() -> Result<Storage, Trouble> {
    match web_sys::window().ok_or(Trouble::Blocked)?.local_storage() {
        Ok(Some(_)) => Ok(gloo_storage::LocalStorage::raw()),
        Ok(None) | Err(_) => Err(Trouble::Blocked),
    }
}

/// What a thrown value means, told by its name: the classes behind the names have changed over time.
fn trouble(error: &JsValue) -> Trouble {
    let text = |name: &str| Reflect::get(error, &name.into()).ok().and_then(|value| value.as_string());
    match text("name").as_deref() {
        Some("QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED") => Trouble::Full,
        Some("SecurityError") => Trouble::Blocked,
        name => {
            Trouble::Other(text("message").or(name.map(str::to_owned)).unwrap_or_else(|| "no reason given".to_owned()))
        }
    }
}

/// Tries whether something can be kept at all, by keeping and dropping a little.
///
/// # Errors
/// [`Trouble`]; when it is full, what is stored can still be read.
pub fn storage_works() -> Result<(), Trouble> {
    let key = "pourwright/trial";
    LocalStorage.write(key, "1")?;
    LocalStorage.remove(key)
}

/// Milliseconds since 1970.
pub fn now() -> u64 {
    // Dates are whole numbers far below 2^53.
    js_sys::Date::now() as u64
}

/// A new id: 128 bits of chance as 32 hexadecimal digits.
pub fn random_id() -> String {
    let mut bytes = [0_u8; 16];
    let crypto = web_sys::window().and_then(|window| window.crypto().ok());
    if crypto.and_then(|crypto| crypto.get_random_values_with_u8_array(&mut bytes).ok()).is_none() {
        bytes.fill_with(|| (js_sys::Math::random() * 256.0) as u8);
    }
    // Not by way of a format: this runs at every start, when none of that is compiled yet.
    bytes
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .filter_map(|digit| char::from_digit(digit.into(), 16))
        .collect()
}

/// Whether an event says so under that name.
pub fn flag(event: &Event, name: &str) -> bool {
    Reflect::get(event, &name.into()).is_ok_and(|value| value.is_truthy())
}

/// Asks the browser not to clear this page's storage when it needs room, and says whether it agreed.
/// Best asked right after the first save that the maker meant.
pub async fn ask_to_persist() -> Option<bool> {
    let storage = storage_manager()?;
    property(&storage, "persist")?;
    JsFuture::from(storage.persist().ok()?).await.ok()?.as_bool()
}

/// How much of the browser's storage is in use. Local storage itself ends at about five million
/// characters, whatever this says.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
pub struct Room {
    /// Bytes in use.
    pub usage: f64,
    /// Bytes that may be used.
    pub quota: f64,
}

/// How much room the browser says there is.
pub async fn room() -> Option<Room> {
    let storage = storage_manager()?;
    property(&storage, "estimate")?;
    let estimate = JsFuture::from(storage.estimate().ok()?).await.ok()?;
    serde_wasm_bindgen::from_value(estimate).ok()
}

fn storage_manager() -> Option<web_sys::StorageManager> {
    let navigator = web_sys::window()?.navigator();
    property(&navigator, "storage").map(JsCast::unchecked_into)
}

/// A property that a browser may not have.
fn property(of: &JsValue, name: &str) -> Option<JsValue> {
    Reflect::get(of, &name.into()).ok().filter(|value| !value.is_undefined() && !value.is_null())
}

/// A file that is ready for the share sheet. It is made before the tap: a browser that has to wait
/// for it forgets that there was a tap.
#[derive(Clone, Debug)]
pub struct ShareReady(ShareData);

/// How sharing ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShareOutcome {
    /// Handed over.
    Done,
    /// The maker closed the share sheet.
    Closed,
    /// The browser would not: download it instead.
    Refused,
}

/// Makes a page ready for the share sheet; `None` where the browser has none that takes files.
pub fn share_file(name: &str, text: &str) -> Option<ShareReady> {
    let kind = FilePropertyBag::new();
    kind.set_type(HTML);
    let file = File::new_with_str_sequence_and_options(&Array::of1(&text.into()), name, &kind).ok()?;
    // Files alone: with words beside them, some phones lose one or the other.
    let data = ShareData::new();
    data.set_files(&Array::of1(&file));
    ready(data)
}

/// Makes an address ready for the share sheet; `None` where the browser has none.
pub fn share_address(address: &str) -> Option<ShareReady> {
    let data = ShareData::new();
    data.set_url(address);
    ready(data)
}

/// Makes a text ready for the share sheet; `None` where the browser has none.
pub fn share_words(text: &str) -> Option<ShareReady> {
    let data = ShareData::new();
    data.set_text(text);
    ready(data)
}

fn ready(data: ShareData) -> Option<ShareReady> {
    let navigator = web_sys::window()?.navigator();
    property(&navigator, "share")?;
    let can_share: Function = property(&navigator, "canShare")?.dyn_into().ok()?;
    let can = can_share.call1(&navigator, &data).ok()?;
    can.is_truthy().then_some(ShareReady(data))
}

/// Puts a text on the clipboard, and says whether the browser allowed it. It is asked at once, within the
/// tap; only its answer is waited for.
pub fn copy(text: &str) -> impl Future<Output = bool> + use<> {
    let navigator = web_sys::window().map(|window| window.navigator());
    let clipboard = navigator.and_then(|navigator| property(&navigator, "clipboard"));
    let promise = clipboard.map(|clipboard| clipboard.unchecked_into::<web_sys::Clipboard>().write_text(text));
    async move {
        match promise {
            Some(promise) => JsFuture::from(promise).await.is_ok(),
            None => false,
        }
    }
}

impl ShareReady {
    /// Opens the share sheet. The browser is asked at once, within the tap; only its answer is waited
    /// for.
    pub fn share(&self) -> impl Future<Output = ShareOutcome> + use<> {
        let promise = web_sys::window().map(|window| window.navigator().share_with_data(&self.0));
        async move {
            let Some(promise) = promise else { return ShareOutcome::Refused };
            match JsFuture::from(promise).await {
                Ok(_) => ShareOutcome::Done,
                Err(error) => match property(&error, "name").and_then(|name| name.as_string()).as_deref() {
                    Some("AbortError") => ShareOutcome::Closed,
                    _ => ShareOutcome::Refused,
                },
            }
        }
    }
}

/// Where a text went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TextShared {
    /// To the share sheet.
    Sent,
    /// Nowhere: the maker closed the share sheet.
    Closed,
    /// To the clipboard.
    Copied,
    /// Nowhere: the browser has neither, or would not.
    Neither(String),
}

/// Gives a text to the share sheet, else to the clipboard, and tells where it went. It must follow a tap at once.
pub fn share_text(text: String, then: impl FnOnce(TextShared) + 'static) {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else {
        return then(TextShared::Neither(text));
    };
    let sheet = property(&navigator, "share").map(|_| {
        let data = ShareData::new();
        data.set_text(&text);
        navigator.share_with_data(&data)
    });
    wasm_bindgen_futures::spawn_local(async move {
        if let Some(sheet) = sheet {
            match JsFuture::from(sheet).await {
                Ok(_) => return then(TextShared::Sent),
                Err(error) => {
                    let name = property(&error, "name").and_then(|name| name.as_string());
                    if name.as_deref() == Some("AbortError") {
                        return then(TextShared::Closed);
                    }
                }
            }
        }
        // Outside of a safe context there is no clipboard.
        if property(&navigator, "clipboard").is_some()
            && JsFuture::from(navigator.clipboard().write_text(&text)).await.is_ok()
        {
            return then(TextShared::Copied);
        }
        then(TextShared::Neither(text));
    });
}

/// Saves a page among the downloads.
///
/// # Errors
/// The browser's own words, if it would not.
pub fn download(name: &str, text: &str) -> Result<(), String> {
    download_as(name, text, HTML)
}

/// Saves a text of that media type among the downloads.
///
/// # Errors
/// The browser's own words, if it would not.
pub fn download_as(name: &str, text: &str, media_type: &str) -> Result<(), String> {
    try_download(name, text, media_type).map_err(|error| match trouble(&error) {
        Trouble::Other(says) => says,
        trouble => trouble.to_string(),
    })
}

fn try_download(name: &str, text: &str, media_type: &str) -> Result<(), JsValue> {
    let window = web_sys::window().ok_or("there is no window")?;
    let document = window.document().ok_or("there is no page")?;
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &kind)?;
    let address = web_sys::Url::create_object_url_with_blob(&blob)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // Some browsers read it late.
    let forget = Closure::once_into_js(move || drop(web_sys::Url::revoke_object_url(&address)));
    window.set_timeout_with_callback_and_timeout_and_arguments_0(forget.unchecked_ref(), DOWNLOAD_STARTS_WITHIN)?;
    Ok(())
}

/// Calls `tell`, for as long as the page lives, with each key that another tab has changed; with
/// `None` when everything was cleared.
pub fn on_storage(tell: impl Fn(Option<String>) + 'static) {
    let Some(window) = web_sys::window() else { return };
    let listener = Closure::<dyn Fn(StorageEvent)>::new(move |event: StorageEvent| tell(event.key()));
    if window.add_event_listener_with_callback("storage", listener.as_ref().unchecked_ref()).is_ok() {
        listener.forget();
    }
}
