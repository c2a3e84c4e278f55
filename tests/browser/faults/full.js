// A session at a storage that fails. What is typed, and what must be said.
const NOT_KEPT = /not being kept|not kept|No room is left|keeps nothing here|could only be deleted for good/i;
// Lost without harm, and kept again by itself.
const AIDS = /^pourwright\/(index|remember\/|trial)/;

// One session. Gives what it broke of the law, and how many changes of the storage it made.
async function session(failAt, forGood) {
  await wipe();
  faults.complaints.length = 0;
  const plan = (faults.plan = { on: true, changes: 0, failAt, forGood, failed: [], blocked: false });
  const broken = [];
  const tab = await Tab.open();
  const typed = {};
  const act = async (what, run) => {
    const before = plan.failed.filter((key) => !AIDS.test(key)).length;
    await run();
    await tab.wait(1000);
    const failed = plan.failed.filter((key) => !AIDS.test(key)).slice(before);
    if (failed.length && !NOT_KEPT.test(tab.said())) broken.push(`${what}: ${failed} failed, and this is said: ${tab.said()}`);
  };
  const write = (id, text) => { if (tab.write(id, text)) typed[id] = text; };
  await act("a new job", () => tab.press("New job"));
  await act("its name", () => write("job-name", "Full"));
  await act("its size", async () => { write("piece-0-width", "48"); write("piece-0-depth", "22 1/4"); });
  await act("a cutout", () => tab.press("+ Cutout"));
  await act("its width", () => write("cutout-0-0-width", "16"));
  await act("a bag", async () => { await tab.turnTo("Pour"); await tab.press("Keep in my bags"); });
  await act("a price", async () => { await tab.turnTo("Quote"); write(tab.find("input[id^=price-]:not(#price-currency)")?.id, "31.50"); });
  await act("a look back", () => tab.turnTo("Measure"));
  await act("the shelf", () => tab.press("All jobs"));
  await act("a copy", () => tab.press("Copy Full"));
  await act("a deletion", () => tab.press("Delete Full copy"));
  await act("and back", () => tab.press("Undo"));
  await act("another job", () => tab.press("New job"));
  if (tab.find("#job-name") && tab.value("job-name") !== "Full") await act("its name", () => tab.write("job-name", "Second"));
  const second = tab.value("job-name") === "Second";
  // There is room again.
  plan.on = false;
  await tab.wait(7000);
  const all = jobs().map(([, text]) => parsed(text));
  const found = all.find((job) => job?.name === "Full");
  const is = { "piece-0-width": found?.pieces[0]?.width, "piece-0-depth": found?.pieces[0]?.depth, "cutout-0-0-width": found?.pieces[0]?.cutouts[0]?.width };
  for (const [id, text] of Object.entries(is)) if (typed[id] && text !== typed[id]) broken.push(`${id}: ${typed[id]} was typed, ${text} is kept`);
  if (!found) broken.push(`the job is not kept: ${JSON.stringify(all.map((job) => job?.name))}`);
  if (second && !all.some((job) => job?.name === "Second")) broken.push("the second job is not kept");
  if (!(localStorage.getItem("pourwright/prices") ?? "").includes("31.50")) broken.push(`the price is not kept: ${tab.said()}`);
  if (NOT_KEPT.test(tab.text("#kept"))) broken.push("with room again, it still says that it is not kept");
  tab.kill();
  faults.plan = null;
  return { broken: [...broken, ...faults.complaints].map((what) => `change ${failAt}${forGood ? " and all after it" : ""}: ${what}`), changes: plan.changes, failed: plan.failed.length };
}

// Every change of a session fails in turn, alone and with all after it.
async function every_change(step) {
  const whole = await session(-1, false);
  const broken = [...whole.broken];
  let sessions = 0;
  for (let failAt = 0; failAt < whole.changes; failAt += 1) {
    for (const forGood of [false, true]) {
      if ((failAt * 2 + forGood) % step) continue;
      broken.push(...(await session(failAt, forGood)).broken);
      sessions += 1;
    }
  }
  return { broken, changes: whole.changes, sessions };
}

// The storage is there, vanishes in the middle of typing, and comes back: what the page says then, and what is kept.
async function vanishing() {
  const plan = (faults.plan = { on: false, changes: 0, failed: [], blocked: false });
  const [tab, id] = await begun("Vanishing");
  const seen = {};
  plan.blocked = true;
  tab.write("job-client", "typed while it is gone");
  await tab.wait(1000);
  seen.gone = tab.said();
  seen.shown = tab.value("job-client");
  await tab.press("All jobs");
  await tab.wait(500);
  seen.shelf = tab.said();
  plan.blocked = false;
  await tab.wait(7000);
  seen.back = tab.said();
  seen.kept = parsed(localStorage.getItem(`pourwright/job/${id}`)).client;
  tab.kill();
  return { ...seen, complaints: faults.complaints };
}

// There is none from the beginning; it comes later.
async function coming() {
  const plan = (faults.plan = { on: false, changes: 0, failed: [], blocked: true });
  const tab = await Tab.open();
  await tab.press("New job");
  tab.write("job-name", "From nowhere");
  await tab.wait(1000);
  const seen = { gone: tab.said(), before: Object.keys(localStorage).length };
  plan.blocked = false;
  await tab.wait(7000);
  seen.back = tab.said();
  tab.write("job-client", "and then typed");
  await tab.wait(1000);
  seen.kept = jobs().map(([, text]) => [parsed(text).name, parsed(text).client]);
  tab.kill();
  return { ...seen, complaints: faults.complaints };
}

// A full storage is read all the same.
async function full_from_the_start() {
  const [first] = await begun("There before");
  first.kill();
  faults.plan = { on: true, changes: 0, failAt: 0, forGood: true, failed: [], blocked: false };
  const tab = await Tab.open();
  const seen = { shelf: tab.text(".jobs") };
  tab.kill();
  return { ...seen, complaints: faults.complaints };
}

// What is not kept is not left without a word: another job does not take its place until the maker gives it up.
async function leaving() {
  const [other] = await begun("The other one");
  other.kill();
  const plan = (faults.plan = { on: true, changes: 0, failAt: 0, forGood: true, failed: [], blocked: false });
  plan.on = false;
  const [tab, id] = await begun("Not to be left");
  plan.on = true;
  tab.write("job-client", "only here");
  await tab.wait(1000);
  await tab.press("All jobs");
  const row = () => tab.all(".job a").find((link) => link.innerText.includes("The other one"));
  await tab.until(row, "the shelf stands");
  row().click();
  await tab.until(() => tab.find("#job-name"), "the job opens");
  const seen = { stays: [tab.value("job-name"), tab.value("job-client")], said: tab.text(".notice") };
  await tab.press("Give it up");
  await tab.until(() => tab.value("job-name") === "The other one", "the other job opens");
  seen.left = tab.value("job-name");
  seen.kept = parsed(localStorage.getItem(`pourwright/job/${id}`)).name;
  tab.kill();
  return { ...seen, complaints: faults.complaints };
}
