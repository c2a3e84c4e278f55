// What a test does with pages in frames, from the page around them. `home` is the address of the page.
const faults = (window.faults = {
  start: 1764000000000,
  plan: null,
  unreadable: new Set(),
  complaints: [],
  // Every text that was written into a record, by whichever page.
  written: [],
});
const real = (wait) => new Promise((done) => setTimeout(done, wait));

// The journal is emptied: what it has would be brought back. A page that was killed may have something on its way there
// still, so it is looked at again until nothing more has come.
const journal = (databases = indexedDB) => new Promise((done, fail) => {
  const opening = databases.open("pourwright", 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore("journal");
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => done(opening.result);
});
async function forget_journal() {
  const database = await journal();
  for (let left = -1, still = 0; still < 2; still = left ? 0 : still + 1) {
    left = await new Promise((done, fail) => {
      const emptying = database.transaction("journal", "readwrite");
      const count = emptying.objectStore("journal").count();
      emptying.objectStore("journal").clear();
      emptying.oncomplete = () => done(count.result);
      emptying.onabort = () => fail(emptying.error);
    });
    await real(30);
  }
  database.close();
}

// The same dice for the same seed: mulberry32, a generator in the public domain.
function dice(seed) {
  return (most) => {
    seed = (seed + 0x6d2b79f5) | 0;
    let mixed = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296) * most);
  };
}

class Tab {
  // Opens the page at what stands behind its #, and waits until it stands.
  static async open(behind = "#/") {
    const tab = new Tab();
    tab.frame = document.createElement("iframe");
    tab.frame.style.cssText = "width:360px;height:740px;border:0";
    tab.frame.src = home + behind;
    document.body.append(tab.frame);
    // The sheet is the last thing to stand: what reads a job is there then.
    await tab.until(() => tab.find("dialog"), "the page opens");
    return tab;
  }
  // Waits in real time for what comes by way of the browser and not of the clock: a fetched part, another task.
  async until(stands, what) {
    for (let tries = 0; !stands(); tries++) {
      if (tries > 4000) throw new Error(`not within 20 s: ${what}; the page says: ${this.text("body").slice(0, 500)}`);
      await real(5);
    }
    await turn();
  }
  get window() { return this.frame.contentWindow; }
  get document() { return this.frame.contentDocument; }
  get clock() { return this.window.clock; }
  find(css) { return this.document?.querySelector(css) ?? null; }
  all(css) { return [...this.document.querySelectorAll(css)]; }
  text(css) { return this.find(css)?.innerText ?? ""; }
  value(id) { return this.find(`#${id}`)?.value; }
  // Everything that is said about keeping, wherever it stands.
  said() { return ["[role=alert]", ".notice", "#kept", "#imported", ".unreadable"].flatMap((css) => this.all(css)).map((e) => e.innerText).join("\n"); }
  async wait(milliseconds) { await this.clock.advance(this.clock.now + milliseconds); }
  // Puts a text into a field as a hand does; false where there is no such field.
  write(id, text) {
    const field = this.find(`#${id}`);
    if (!field) return false;
    const kind = field.tagName === "TEXTAREA" ? this.window.HTMLTextAreaElement : this.window.HTMLInputElement;
    Object.getOwnPropertyDescriptor(kind.prototype, "value").set.call(field, text);
    field.dispatchEvent(new this.window.InputEvent("input", { bubbles: true }));
    return true;
  }
  // Presses what carries these words; false where nothing does.
  async press(words) {
    const fits = (e) => e.getAttribute("aria-label") === words || e.innerText.trim() === words;
    const found = this.all("button, a, summary").find((e) => fits(e) && (e.offsetParent || e.closest("dialog, .notice, .verbs")));
    if (!found) return false;
    found.click();
    await turn();
    await turn();
    return true;
  }
  async turnTo(verb) {
    const found = this.all(".verbs a").find((e) => e.innerText.trim().startsWith(verb));
    found?.click();
    // A screen that is still fetched has no fields yet.
    const stands = () => this.find(`main[data-screen=${verb}]`) && !this.text("main").includes("Fetching this screen");
    if (found) await this.until(stands, `${verb} stands`);
    for (const details of this.all("details")) details.open = true;
    return Boolean(found);
  }
  // Nothing of it is on its way to the journal any more. What it writes by a transaction is before this one, which is
  // made by the same page; what waited for that is before the next.
  async settled() {
    for (let round = 0; round < 3; round++) {
      const database = await journal(this.window.indexedDB);
      await new Promise((done, fail) => {
        const last = database.transaction("journal", "readwrite");
        last.objectStore("journal").count();
        last.oncomplete = done;
        last.onabort = () => fail(last.error);
      });
      database.close();
    }
  }
  // It is closed once all it has kept is on disk.
  async close() {
    await this.settled();
    this.kill();
  }
  // It is gone from one moment to the next, as when a phone needs its memory.
  kill() {
    faults.start = this.clock.now;
    this.frame.remove();
  }
}

const records = () => Object.fromEntries(Object.keys(localStorage).map((key) => [key, localStorage.getItem(key)]));
const jobs = () => Object.entries(records()).filter(([key]) => key.startsWith("pourwright/job/"));
const parsed = (text) => { try { return JSON.parse(text).job; } catch { return undefined; } };
// Everything that the browser keeps for the page is cleared, as by hand.
const wipe = async () => { localStorage.clear(); await forget_journal(); };
const put_back = async (all) => { await wipe(); for (const [key, text] of Object.entries(all)) localStorage.setItem(key, text); };

// A new job with a name, in a tab of its own; gives the tab and the job's id.
async function begun(name) {
  const tab = await Tab.open();
  await tab.press("New job");
  tab.write("job-name", name);
  await tab.wait(2000);
  const [key] = jobs().find(([, text]) => parsed(text)?.name === name);
  return [tab, key.slice("pourwright/job/".length)];
}
