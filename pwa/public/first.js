// Before the first paint, against a white flash; a file, as no inline script may be.
(() => {
  const root = document.documentElement;
  const read = (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  };
  const theme = read("broodline-theme");
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  root.dataset.theme = theme && theme !== "auto" ? theme : dark ? "night" : "day";
  if (read("broodline-tone") === "amber") root.dataset.tone = "amber";
  if (read("broodline-hand") === "left") root.dataset.hand = "left";
  root.dataset.letters = read("broodline-letters") ?? "usual";
})();
