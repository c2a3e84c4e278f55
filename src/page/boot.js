// Starts the page. A file and not an inline script, so that the content security policy can forbid those.

// The welcome is painted before the program is made ready, which takes a slow phone a while. A tab that is not in
// sight paints nothing and is not waited for.
const painted = document.documentElement.classList.contains("known") || new Promise((then) => {
  requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(then)));
  setTimeout(then, 100);
});

const { js, wasm } = document.querySelector("script[data-js]").dataset;

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
