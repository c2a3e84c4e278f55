// Runs before everything else in the page: writes down what is complained of, until the tab is closed.
(() => {
  const place = "test/complaints";
  const complaints = () => JSON.parse(sessionStorage.getItem(place) ?? "[]");
  const complain = (...words) => {
    const said = words.map((word) => String(word?.stack ? `${word} ${word.stack}` : word)).join(" ");
    sessionStorage.setItem(place, JSON.stringify([...complaints(), said]));
  };
  for (const how of ["warn", "error", "assert"]) {
    const own = console[how];
    console[how] = (...words) => {
      if (how !== "assert" || !words[0]) complain(`console.${how}:`, ...words);
      own.apply(console, words);
    };
  }
  // In the phase before the target's own, where files that do not load are heard of too.
  addEventListener("error", (event) => {
    complain("error:", event.message ?? event.target?.src ?? event.target?.href, event.error ?? "");
  }, true);
  addEventListener("unhandledrejection", (event) => complain("nobody took:", event.reason));
  addEventListener("securitypolicyviolation", (event) => {
    complain("the policy forbids:", event.violatedDirective, event.blockedURI);
  });
  window.complaints = complaints;
})();
