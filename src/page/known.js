// Runs before anything is painted: who has a job here, or opens one, is not welcomed as if new.
try {
  const has = Object.keys(localStorage).some((key) => key.startsWith("pourwright/job/"));
  if (has || location.hash.length > 2) document.documentElement.classList.add("known");
} catch {
  // A browser that gives no storage knows nobody.
}
