// The fields that are typed into, and the fields of the file that they are.
const FIELDS = { "job-name": "name", "job-client": "client", "job-notes": "notes" };
const LETTERS = "abcdefghijklmnopqrstuvwxyz 0123456789/½";

const shown = (tab) => Object.fromEntries(Object.keys(FIELDS).map((id) => [FIELDS[id], tab.value(id)]));
const stored = (id) => {
  const job = parsed(localStorage.getItem(`pourwright/job/${id}`)) ?? {};
  return Object.fromEntries(Object.values(FIELDS).map((name) => [name, job[name]]));
};

// Types, is killed at a moment, and opens again what is left; as often as said. With `jumps` the clock of the wall
// goes to some other year now and then.
async function kills(seed, count, jumps) {
  const chance = dice(seed);
  const [first, id] = await begun("Killed");
  first.kill();
  const report = [];
  for (let round = 0; round < count; round++) {
    const tab = await Tab.open(`#/job/${id}/measure`);
    const log = [[tab.clock.now, shown(tab)]];
    const opened = [shown(tab), stored(id)];
    const killed = tab.clock.now + chance(2500);
    for (;;) {
      // Some letters come at once, some after a pause.
      const next = tab.clock.now + (chance(4) === 0 ? chance(1200) : chance(150));
      if (next > killed) break;
      await tab.clock.advance(next);
      if (jumps && chance(6) === 0) tab.clock.jump = (chance(2) ? 1 : -1) * chance(50 * 365 * 86400) * 1000;
      const field = Object.keys(FIELDS)[chance(3)];
      const text = tab.value(field);
      tab.write(field, chance(5) === 0 ? text.slice(0, -1) : text + LETTERS[chance(LETTERS.length)]);
      log.push([tab.clock.now, shown(tab)]);
    }
    await tab.clock.advance(killed);
    tab.kill();
    report.push({ killed, log, opened, stored: stored(id) });
  }
  return { report, complaints: faults.complaints };
}
