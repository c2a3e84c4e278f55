// Starts the page. A file and not an inline script, so that the content security policy can forbid those.

const { js, wasm, parts, built } = document.querySelector("script[data-js]").dataset;
const isKnown = document.documentElement.classList.contains("known");

// As long as this tab lives, the service worker keeps the version that it was opened from. Refused where storage is.
navigator.locks
  ?.request(`pourwright ${new URL("./", location.href)} ${built}`, { mode: "shared" }, () => new Promise(() => {}))
  .catch(() => {});

// Whether the host has another version than this page is of. Its service worker is never kept, and names its version.
window.hostHasAnother = async () => {
  try {
    const answer = await fetch("./offline.js", { cache: "no-store" });
    const version = answer.ok && /const VERSION = "(\w+)"/.exec(await answer.text())?.[1];
    return Boolean(version) && version !== built;
  } catch {
    return false;
  }
};

// Who has a job will have one opened: what that takes is fetched beside the program, and not behind it.
for (const part of isKnown && parts ? parts.split(" ") : []) {
  document.head.append(Object.assign(document.createElement("link"), {
    rel: "preload", as: "fetch", crossOrigin: "anonymous", href: part,
  }));
}

// The welcome is painted before the program is made ready, which takes a slow phone a while. A tab that is not in
// sight paints nothing and is not waited for.
const painted = isKnown || new Promise((then) => {
  requestAnimationFrame(() => requestAnimationFrame(then));
  setTimeout(then, 100);
});

try {
  const [{ default: start }] = await Promise.all([import(js), painted]);
  // Where the host does not call it a program, it is compiled from its bytes: the script sees to that.
  await start({ module_or_path: wasm });
} catch (error) {
  console.error(error);
  const isOld = await hostHasAnother();
  // Gone if the page stood before it failed: then there is something better to look at.
  const message = document.getElementById("boot-message");
  if (message) {
    message.setAttribute("role", "alert");
    message.textContent = isOld
      ? "The host has a newer version of this page. Reload to open it. Jobs saved in this browser are untouched."
      : "This page could not start. Check the connection and reload. If it still does not start, update this browser " +
        "or open the page in another one. Jobs saved in this browser are untouched.";
  }
}
