// Taps and types at random for a while, as a child with a phone would; gives what the page was at when it stood still
// for long, and the last acts. `arguments`: the seed, and how long in milliseconds.
const [seed, lasts] = arguments;
const LONG = 500;
const TEXTS = ["", "0", "1", "12", "48 1/2", "25.5", "1/2", "-3", "999999", "1e9", "7 ft 2", "600 mm", "3000 psi", "2 h", "70 °F", "½", "two", "12,5", "  9  ", "<b>x</b>", "\u202e12", "🙂", "x".repeat(300)];
// The same dice for the same seed: mulberry32, a generator in the public domain.
let state = seed;
const chance = (most) => {
  state = (state + 0x6d2b79f5) | 0;
  let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
  mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
  return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296) * most);
};
const acts = [];
const report = { acts: 0, long: [], longest: 0, errors: [] };
addEventListener("error", (event) => report.errors.push({ says: event.message, acts: acts.slice(-6) }));
addEventListener("unhandledrejection", (event) => report.errors.push(String(event.reason)));

// How much slower this machine is now than at its best: the same work, timed before and after whatever took long.
const work = () => {
  const begun = performance.now();
  let sum = 0;
  for (let at = 0; at < 400000; at++) sum = (sum * 31 + at) | 0;
  window.worked = sum;
  return performance.now() - begun;
};
let best = Infinity;
for (let tries = 0; tries < 30; tries++) best = Math.min(best, work());
const slowness = [];
const slow = () => {
  slowness.push(work() / best);
  if (slowness.length > 4) slowness.shift();
};

const stood = (entries) => {
  for (const { duration } of entries) {
    report.longest = Math.max(report.longest, duration);
    slow();
    if (duration > LONG * Math.max(1, ...slowness)) report.long.push({ duration, slowness: [...slowness], acts: acts.slice(-6) });
  }
};
const watch = new PerformanceObserver((list) => stood(list.getEntries()));
watch.observe({ type: "longtask" });

const reach = () => {
  const within = document.querySelector("dialog[open]") ?? document;
  const all = [...within.querySelectorAll("button, a[href^='#'], input, select, textarea, summary, svg [role=button]")];
  return all.filter((e) => !e.disabled && e.type !== "file" && e.checkVisibility({ visibilityProperty: true }));
};
const type = (field, text) => {
  const kind = field.tagName === "TEXTAREA" ? HTMLTextAreaElement : HTMLInputElement;
  Object.getOwnPropertyDescriptor(kind.prototype, "value").set.call(field, text);
  field.dispatchEvent(new InputEvent("input", { bubbles: true }));
};
const act = () => {
  const all = reach();
  if (!all.length) return history.back();
  const target = all[chance(all.length)];
  const name = `${target.tagName} ${target.id || target.getAttribute("aria-label") || target.textContent.trim().slice(0, 40)}`;
  target.scrollIntoView({ block: "center" });
  if (target.tagName === "SELECT") {
    target.selectedIndex = chance(target.options.length);
    target.dispatchEvent(new Event("change", { bubbles: true }));
    acts.push(`choose ${target.selectedIndex} of ${name}`);
  } else if (target.matches("textarea, input:not([type=checkbox]):not([type=radio])")) {
    const text = TEXTS[chance(TEXTS.length)];
    target.focus();
    type(target, text);
    acts.push(`type ${text.slice(0, 20)} into ${name}`);
  } else {
    // What lies on top takes the tap, as under a finger.
    const { left, top, width, height } = target.getBoundingClientRect();
    const hit = document.elementFromPoint(left + width / 2, top + height / 2);
    acts.push(`tap ${name}`);
    (hit && (target.contains(hit) || hit.contains(target)) ? target : (hit ?? target)).dispatchEvent(
      new MouseEvent("click", { bubbles: true, cancelable: true, view: window }),
    );
  }
  if (acts.length > 12) acts.shift();
  report.acts += 1;
};

return (async () => {
  const ends = performance.now() + lasts;
  while (performance.now() < ends) {
    act();
    await new Promise((done) => setTimeout(done, [0, 5, 30, 120][chance(4)]));
    slow();
  }
  await new Promise((done) => setTimeout(done, 300));
  stood(watch.takeRecords());
  watch.disconnect();
  return report;
})();
