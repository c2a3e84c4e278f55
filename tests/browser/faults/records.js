// What can become of the text of a record.
const KINDS = {
  cut: (text) => text.slice(0, Math.floor(text.length * 0.6)),
  flipped: (text, chance) => {
    // A bit of a digit or a letter, so that most of what comes out is still JSON.
    const at = [...text.matchAll(/[A-Za-z0-9]/g)].map((match) => match.index);
    const place = at[chance(at.length)];
    return text.slice(0, place) + String.fromCharCode(text.charCodeAt(place) ^ 1) + text.slice(place + 1);
  },
  newer: (text) => text.replace(/"version":\d+/, '"version":99'),
  empty: () => "",
};

// A shelf with three jobs, one deleted, bags of the maker's own and prices.
async function filled() {
  await wipe();
  let tab;
  for (const name of ["North", "South", "Gone", "West"]) {
    if (tab) await tab.close();
    [tab] = await begun(name);
  }
  await tab.turnTo("Pour");
  await tab.press("Keep in my bags");
  await tab.turnTo("Quote");
  tab.write(tab.find("input[id^=price-]:not(#price-currency)").id, "12.75");
  await tab.wait(1000);
  await tab.press("All jobs");
  await tab.press("Delete Gone");
  await tab.wait(1000);
  await tab.close();
  return records();
}

// Every record is spoiled in every way, and then everything is used.
async function every_record(seed) {
  const chance = dice(seed);
  const whole = await filled();
  const broken = [];
  let spoiled = 0;
  for (const key of Object.keys(whole)) {
    for (const [kind, spoil] of Object.entries(KINDS)) {
      const text = spoil(whole[key], chance);
      faults.unreadable = new Set([text]);
      faults.complaints.length = 0;
      await put_back({ ...whole, [key]: text });
      const what = `${key}, ${kind}`;
      const tab = await Tab.open();
      spoiled += 1;
      const names = ["North", "South", "West"].filter((name) => whole[key].includes(`"name":"${name}"`) ? !key.startsWith("pourwright/job/") : true);
      await tab.until(() => names.every((name) => tab.text(".jobs").includes(name)), `${what}: ${names} are shown`);
      const said = tab.all(".unreadable").length;
      const bad = /^pourwright\/(job|bags|prices)/.test(key);
      if (bad !== said > 0) broken.push(`${what}: ${said} records are said to be unreadable`);
      if (kind === "newer" && bad && !tab.text(".unreadable").includes("newer")) broken.push(`${what}: it is not said to be newer`);
      // Its own address says so too.
      if (key.startsWith("pourwright/job/")) {
        const own = await Tab.open(`#/job/${key.slice("pourwright/job/".length)}/measure`);
        if (!own.text("[role=alert]").includes("cannot be opened")) broken.push(`${what}: it opens: ${own.text("main").slice(0, 200)}`);
        await own.close();
      }
      // The others are worked on, bags and prices too.
      for (const name of names.slice(0, 1)) {
        tab.all(".job a").find((link) => link.textContent.includes(name)).click();
        await tab.until(() => tab.find("#job-client"), `${what}: ${name} opens`);
        tab.write("job-client", "still works");
        await tab.wait(1000);
        if (!jobs().some(([, kept]) => parsed(kept)?.client === "still works")) broken.push(`${what}: ${name} is not kept: ${tab.said()}`);
        await tab.turnTo("Pour");
        await tab.press("Keep in my bags");
        await tab.turnTo("Quote");
        tab.write(tab.find("input[id^=price-]:not(#price-currency)").id, "99.25");
        await tab.wait(1000);
        const kept = (localStorage.getItem("pourwright/prices") ?? "").includes("99.25");
        if (!kept && !/not kept/.test(tab.said())) broken.push(`${what}: the price is lost without a word: ${tab.said()}`);
        await tab.press("All jobs");
        await tab.wait(500);
      }
      const there = Object.entries(records()).filter(([, kept]) => kept === text).map(([key]) => key);
      const same = there.includes(key);
      if (!/index|remember/.test(key) && !there.length) broken.push(`${what}: its text is gone`);
      if (kind === "newer" && bad && !same) broken.push(`${what}: a newer record was replaced`);
      if (key.startsWith("pourwright/job/") && !same) broken.push(`${what}: an unreadable job was replaced`);
      broken.push(...faults.complaints.map((complaint) => `${what}: ${complaint}`));
      await tab.close();
    }
  }
  return { broken, spoiled, records: Object.keys(whole).length };
}

// A newer program in another tab writes the job that is open here. A deaf tab hears of it only when it saves.
async function downgrade(deaf) {
  const [tab, id] = await begun("Two programs");
  const key = `pourwright/job/${id}`;
  const newer = KINDS.newer(localStorage.getItem(key)).replace('"job":{', '"job":{"waterfall":"24",');
  faults.unreadable = new Set([newer]);
  let heard = false;
  const hear = (event) => { heard = true; if (deaf) event.stopImmediatePropagation(); };
  tab.window.addEventListener("storage", hear, true);
  localStorage.setItem(key, newer);
  await tab.until(() => heard, "the tab hears of it");
  tab.write("job-client", "typed in the older one");
  await tab.wait(1000);
  const seen = { open: tab.said(), shown: tab.value("job-client"), kept: localStorage.getItem(key) === newer };
  seen.offered = await tab.press("Keep both");
  await tab.wait(1000);
  seen.both = jobs().map(([, text]) => parsed(text).client);
  seen.still = localStorage.getItem(key) === newer;
  tab.kill();
  const again = await Tab.open(`#/job/${id}/measure`);
  seen.again = again.text("[role=alert]");
  again.kill();
  return { ...seen, complaints: faults.complaints };
}
