// How the worker that draws the map may die, from the page's side.
const DEATHS = {
  // It is never started.
  "is never started": () => class { constructor() { throw new DOMException("no", "SecurityError"); } },
  // It starts, takes the question, and nothing is ever heard of it again.
  "falls silent": (Real) => class extends Real { postMessage(...given) { super.postMessage(...given); super.terminate(); } },
  // It breaks on the question.
  "breaks": (Real) => class extends Real {
    postMessage() { super.terminate(); queueMicrotask(() => this.dispatchEvent(new Event("error", { cancelable: true }))); }
  },
  // Its answer is nonsense.
  "babbles": (Real) => class extends Real {
    postMessage() { super.terminate(); queueMicrotask(() => this.dispatchEvent(new MessageEvent("message", { data: { Answer: 3 } }))); }
  },
};

async function until(what, wait = 20000) {
  for (let spent = 0; !what(); spent += 10) {
    if (spent > wait) return false;
    await real(10);
  }
  return true;
}

// The worker dies in a solve; the maker goes on typing, and then the next one lives.
async function deaths() {
  const report = [];
  for (const [how, make] of Object.entries(DEATHS)) {
    await wipe();
    const [tab, id] = await begun("Narrow");
    const Living = tab.window.Worker;
    for (const [field, text] of Object.entries({ width: "70", depth: "20", thickness: "1 1/2" })) tab.write(`piece-0-${field}`, text);
    await tab.turnTo("Build");
    let heard = 0;
    tab.window.Worker = make(class extends Living {
      constructor(...given) { super(...given); this.addEventListener("message", () => { heard += 1; }); }
    });
    // The first question there is: a strength was all that it waited for.
    tab.write("handling-0-strength", "1500");
    await tab.wait(1100);
    // It says that it is ready, is asked, and dies.
    if (how !== "is never started") await until(() => heard > 0);
    await real(50);
    tab.write("handling-0-strength", "1600");
    await tab.wait(1000);
    const kept = parsed(localStorage.getItem(`pourwright/job/${id}`)).pieces[0].handling.strength;
    await until(() => heard > 0 || how === "is never started");
    await real(100);
    await tab.wait(31000);
    const said = tab.text("#no-map");
    const hand = tab.text("[aria-label='Will it crack']") || tab.text(".cracking");
    tab.window.Worker = Living;
    tab.write("handling-0-strength", "1700");
    await tab.wait(1100);
    const answered = await until(() => tab.find("#crack-says"));
    tab.kill();
    report.push({ how, kept, said, hand, answered });
  }
  return { report, complaints: faults.complaints };
}
