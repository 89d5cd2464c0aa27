// Runs before the first paint, so that the hatch room never flashes white. It stands in a file of its own because
// the page's security policy allows no inline script; the stylesheet does the rest from these attributes.
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
