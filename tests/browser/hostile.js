// A stranger's job through every screen. Nothing in it may become an element, an attribute or a script.
const SCREENS = ["Measure", "Build", "Pour", "Finish", "Quote"];
const FOREIGN = "script, iframe, object, embed, img, video, audio, base, meta, link, style, form, math, animate, foreignObject";

function strangers(tab, where) {
  const found = tab.all("body *").filter((e) => e.matches(FOREIGN) || [...e.attributes].some((a) => /^on/i.test(a.name) || /^\s*javascript:/i.test(a.value)));
  return found.map((e) => `${where}: ${e.outerHTML.slice(0, 200)}`);
}

function harm(tab, where) {
  const broken = strangers(tab, where);
  if ("harmed" in window || "harmed" in tab.window) broken.push(`${where}: it ran`);
  if (!tab.find("main")) broken.push(`${where}: the page is gone`);
  broken.push(...faults.complaints.splice(0).map((what) => `${where}: ${what}`));
  return broken;
}

async function paste(tab, text) {
  await tab.press("Import");
  await tab.until(() => tab.find("#import-text"), "there is a place to paste");
  tab.write("import-text", text);
  await tab.press("Import the pasted text");
  await tab.wait(100);
  await tab.until(() => tab.text("#imported"), "what became of it is said");
  const said = tab.text("#imported");
  await tab.press("Close");
  return said;
}

// Opens the job of a file and looks at every screen with everything unfolded, at what is printed and at what is
// shared; gives what broke, the shared file, and every text that was seen.
async function through(file) {
  await wipe();
  faults.unreadable = new Set();
  const tab = await Tab.open();
  const broken = [];
  const said = await paste(tab, file);
  broken.push(...harm(tab, "the shelf"));
  let seen = tab.document.body.innerText;
  const job = tab.find(".job a");
  if (!job) return { broken: [`it is not taken in: ${said}`], shared: "", seen };
  job.click();
  await tab.until(() => tab.find(".verbs"), "the job opens");
  for (const screen of SCREENS) {
    await tab.turnTo(screen);
    await tab.wait(400);
    const pieces = Math.max(1, tab.all("[aria-label=Pieces] button").length);
    for (let piece = 0; piece < pieces; piece++) {
      tab.all("[aria-label=Pieces] button")[piece]?.click();
      for (const part of tab.all(".parts button").map((button) => button.innerText)) await tab.press(part);
      for (const details of tab.all("details")) details.open = true;
      await tab.wait(400);
      seen += tab.document.body.innerText + tab.all("input, textarea").map((field) => field.value).join("\n");
      broken.push(...harm(tab, `${screen}, piece ${piece + 1}`));
    }
    for (const words of tab.all("button").map((button) => button.innerText.trim()).filter((words) => /print/i.test(words))) {
      await tab.press(words);
      await tab.wait(100);
      const paper = tab.find("#paper, #full-size");
      seen += paper?.textContent ?? "";
      const printed = strangers(tab, `on paper: ${words}`).filter((what) => !/<style/.test(what));
      broken.push(...printed);
      for (const left of tab.all("#paper, #full-size")) left.remove();
    }
    broken.push(...harm(tab, `${screen}, printed`));
    for (const number of tab.all(".numbers4 button")) {
      number.click();
      await tab.wait(50);
      broken.push(...harm(tab, `${screen}, ${number.innerText}`));
      await tab.press("Close");
    }
  }
  let shared = "";
  const keep = tab.window.URL.createObjectURL;
  tab.window.URL.createObjectURL = (blob) => { shared = blob.text(); return keep.call(tab.window.URL, blob); };
  await tab.press("Share this estimate");
  await tab.wait(300);
  await tab.until(() => tab.find("#share-save"), "it can be shared as a file");
  seen += tab.document.body.innerText;
  await tab.press("Save the file");
  await tab.wait(100);
  await tab.until(() => shared, "the file is made");
  broken.push(...harm(tab, "sharing"));
  const sharing = `${tab.text("dialog")} ${tab.text(".notice")}`;
  shared = await shared;
  tab.kill();
  return { broken, shared, seen, sharing };
}

// Addresses that somebody else made.
async function addresses(all) {
  const broken = [];
  const said = [];
  for (const address of all) {
    await wipe();
    const tab = await Tab.open(address);
    for (const details of tab.all("details")) details.open = true;
    await tab.wait(300);
    broken.push(...harm(tab, address.slice(0, 100)));
    said.push(tab.text("main"));
    tab.kill();
  }
  return { broken, said };
}

// Files with such names, and such contents, dropped on the page; and such keys in the storage.
async function files(texts) {
  await wipe();
  const tab = await Tab.open();
  const broken = [];
  for (const text of texts) {
    const data = new tab.window.DataTransfer();
    data.items.add(new tab.window.File([text], `${text}.html`, { type: "text/html" }));
    tab.find("main").dispatchEvent(new tab.window.DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    await real(20);
    await tab.wait(50);
    broken.push(...harm(tab, `a file ${text}`));
  }
  const said = tab.text("#imported");
  tab.kill();
  texts.forEach((text, index) => localStorage.setItem(`pourwright/job/${index}${text}`, text));
  faults.unreadable = new Set(texts);
  const shelf = await Tab.open();
  broken.push(...harm(shelf, "strange records"));
  const unreadable = shelf.all(".unreadable").length;
  shelf.kill();
  return { broken, said, unreadable };
}
