// Starts the page. A file and not an inline script, so that the content security policy can forbid those.

const { js, wasm, parts } = document.querySelector("script[data-js]").dataset;
const isKnown = document.documentElement.classList.contains("known");

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
  await start({ module_or_path: wasm });
} catch (error) {
  console.error(error);
  // Gone if the page stood before it failed: then there is something better to look at.
  const message = document.getElementById("boot-message");
  if (message) {
    message.setAttribute("role", "alert");
    message.textContent =
      "This page could not start. Check the connection and reload. If it still does not start, update this browser " +
      "or open the page in another one. Jobs saved in this browser are untouched.";
  }
}
