// Several tabs work on one job, in any order; each says what it could not keep, and keeps both in the end.
async function many(seed, count) {
  const chance = dice(seed);
  const [first, id] = await begun("Shared");
  const tabs = [first];
  while (tabs.length < count) tabs.push(await Tab.open(`#/job/${id}/measure`));
  for (const tab of tabs) tab.clock.now = first.clock.now;
  const deaf = chance(2) ? chance(count) : -1;
  if (deaf >= 0) tabs[deaf].window.addEventListener("storage", (event) => event.stopImmediatePropagation(), true);
  const broken = [];
  let told = 0;
  for (let act = 0; act < 30; act++) {
    const at = chance(count);
    if (chance(3) < 2) {
      tabs[at].write("job-client", `tab ${at} act ${act}`);
    }
    const gap = [0, 10, 150, 500, 1200][chance(5)];
    for (const tab of tabs) await tab.wait(gap);
    // A tab hears of another by way of the browser, which takes a real moment.
    await real(15);
  }
  for (const tab of tabs) await tab.wait(1500);
  await real(100);
  // What one tab kept may be typed over in another that shows it; so every state that was ever kept counts.
  const ever = new Set(["", ...faults.written.splice(0).map((text) => parsed(text)?.client)]);
  const kept = () => jobs().map(([, text]) => parsed(text).client);
  for (const [index, tab] of tabs.entries()) {
    const shown = tab.value("job-client");
    const said = tab.said();
    const conflict = /changed in another tab\./.test(said);
    if (conflict) told += 1;
    if (!conflict && !ever.has(shown)) broken.push(`tab ${index} shows ${shown}, which was never kept: ${said}`);
    if (conflict) {
      await tab.press("Keep both");
      await tab.wait(1500);
      if (!kept().includes(shown)) broken.push(`tab ${index}: ${shown} was to be kept as well: ${tab.said()}`);
    }
  }
  for (const tab of tabs) tab.kill();
  return { broken: [...broken, ...faults.complaints], told };
}

async function many_times(count, rounds) {
  const all = { broken: [], told: 0 };
  for (let round = 0; round < rounds; round++) {
    await wipe();
    faults.complaints.length = 0;
    const { broken, told } = await many(round * 97 + count, count);
    all.broken.push(...broken.map((what) => `round ${round}: ${what}`));
    all.told += told;
  }
  return all;
}

// How many entries the journal holds.
async function in_the_journal() {
  const database = await journal();
  const counting = database.transaction("journal").objectStore("journal").count();
  const count = await new Promise((done, fail) => {
    counting.onsuccess = () => done(counting.result);
    counting.onerror = () => fail(counting.error);
  });
  database.close();
  return count;
}

// One tab brings in so many jobs that another hears of; then all pages die before local storage was put on disk, and the
// journal brings everything back. How often the whole shelf is listed by whoever hears of it: at once, and in the end.
async function many_at_once(text, count) {
  const heard_of = async (tab, hears) => {
    let lists = 0;
    // A list begins with the index, which nothing else but a first glance reads.
    faults.reads = (window, key) => { if (window === tab.window && key === "pourwright/index") lists += 1; };
    await hears();
    const meanwhile = lists;
    await tab.wait(2000);
    faults.reads = null;
    return { meanwhile, lists: lists - meanwhile, shown: tab.all(".jobs li").length };
  };
  const [one, other] = [await Tab.open(), await Tab.open()];
  await one.wait(2000);
  await other.wait(2000);
  const keys = new Set();
  other.window.addEventListener("storage", (event) => keys.add(event.key));
  const from_a_tab = await heard_of(other, async () => {
    await one.press("Import");
    one.write("import-text", text);
    await one.press("Import the pasted text");
    const jobs = () => [...keys].filter((key) => key?.startsWith("pourwright/job/")).length;
    await other.until(() => jobs() === count, "every job is heard of");
  });
  await one.until(() => /on your shelf/.test(one.said()), "all of it is in");
  while ((await in_the_journal()) < count) await real(10);
  for (const tab of [one, other]) tab.kill();
  localStorage.clear();
  const again = await Tab.open();
  await again.until(() => /Brought back/.test(again.said()), "the journal brings it back");
  const from_the_journal = await heard_of(again, async () => {});
  again.kill();
  return { from_a_tab, from_the_journal, complaints: faults.complaints };
}
