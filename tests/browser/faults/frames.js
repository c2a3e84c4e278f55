// Runs before everything else in every page. A page in a frame gets a clock that only the test moves, never hears
// that it is closed, and a guard over its storage, which tells what is read where anybody asks; the page around it gets what opens, uses and kills frames.
(() => {
  const turn = () =>
    new Promise((done) => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => { channel.port1.close(); done(); };
      channel.port2.postMessage(0);
    });

  if (window === top) {
    window.turn = turn;
    return;
  }

  // The clock: timers run when the test says that their time has come.
  const clock = { now: top.faults?.start ?? 1764000000000, jump: 0, due: [], next: 1 };
  const RealDate = Date;
  window.Date = class extends RealDate {
    constructor(...given) { given.length ? super(...given) : super(clock.now + clock.jump); }
    static now() { return clock.now + clock.jump; }
  };
  window.setTimeout = (run, wait = 0, ...given) => {
    clock.due.push({ id: clock.next, at: clock.now + Math.max(0, wait), run: () => run(...given) });
    return clock.next++;
  };
  window.clearTimeout = (id) => { clock.due = clock.due.filter((timer) => timer.id !== id); };
  clock.advance = async (to) => {
    for (;;) {
      await turn();
      clock.due.sort((a, b) => a.at - b.at || a.id - b.id);
      const timer = clock.due[0];
      if (!timer || timer.at > to) break;
      clock.due.shift();
      clock.now = Math.max(clock.now, timer.at);
      timer.run();
    }
    clock.now = to;
    await turn();
  };
  window.clock = clock;
  // No dialog, which nobody would close.
  window.print = () => {};

  // A tab that is killed hears no farewell.
  for (const name of ["pagehide", "visibilitychange", "beforeunload"]) {
    addEventListener(name, (event) => event.stopImmediatePropagation(), true);
  }
  // And a hostile text that ran, an error, or anything the policy stopped, is told.
  const complain = (what) => top.faults?.complaints.push(String(what));
  addEventListener("error", (event) => complain(event.message));
  addEventListener("unhandledrejection", (event) => complain(event.reason));
  addEventListener("securitypolicyviolation", (event) => complain(`policy: ${event.violatedDirective}`));
  const error = console.error;
  console.error = (...given) => { complain(given.join(" ")); error(...given); };

  // The storage: it fails when the test says so, and nothing that was saved may vanish from it.
  const real = { get: Storage.prototype.getItem, set: Storage.prototype.setItem, remove: Storage.prototype.removeItem };
  const everywhere = (storage) => Object.keys(storage).map((key) => [key, real.get.call(storage, key)]);
  const matters = (key) => /^pourwright\/(job|deleted|aside|bags|prices)/.test(key);
  const revision = (text) => { try { return JSON.parse(text).revision; } catch { return undefined; } };
  const gate = (key, what) => {
    const plan = top.faults?.plan;
    if (!plan) return;
    if (plan.blocked) throw new DOMException("The operation is insecure.", "SecurityError");
    if (what === "read") return;
    const turn = plan.changes++;
    if (plan.on && what === "write" && (plan.forGood ? turn >= plan.failAt : turn === plan.failAt)) {
      plan.failed.push(key);
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    }
  };
  Storage.prototype.getItem = function (key) { gate(key, "read"); top.faults?.reads?.(window, key); return real.get.call(this, key); };
  Storage.prototype.setItem = function (key, text) {
    gate(key, "write");
    const before = real.get.call(this, key);
    if (matters(key) && before !== null && before !== text) {
      const next = JSON.parse(text);
      const readable = !top.faults.unreadable.has(before);
      const aside = everywhere(this).some(([other, kept]) => other !== key && kept === before);
      if (readable ? next.revision !== revision(before) + 1 : !aside) complain(`${key} was overwritten: ${before}`);
    }
    real.set.call(this, key, text);
    top.faults?.written.push(text);
  };
  Storage.prototype.removeItem = function (key) {
    gate(key, "remove");
    const before = real.get.call(this, key);
    const elsewhere = everywhere(this).some(([other, kept]) => other !== key && kept === before);
    if (matters(key) && before !== null && !elsewhere) complain(`${key} was destroyed: ${before}`);
    real.remove.call(this, key);
  };
})();
