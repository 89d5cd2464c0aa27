import { effect, signal } from "@preact/signals";
import { hand, letters, theme, tone } from "../state/choices.ts";

/** Puts the chosen theme, tone, hand and size of letters on the page and keeps them in step with the choices. */
export function followTheme(page: Document, dark: MediaQueryList): void {
  const phoneIsDark = signal(dark.matches);
  dark.addEventListener("change", (event) => {
    phoneIsDark.value = event.matches;
  });
  effect(() => {
    const root = page.documentElement;
    root.dataset.theme = theme.value === "auto" ? (phoneIsDark.value ? "night" : "day") : theme.value;
    root.dataset.tone = tone.value;
    root.dataset.hand = hand.value;
    root.dataset.letters = letters.value;
    const paper = getComputedStyle(root).getPropertyValue("--paper").trim();
    page.querySelector('meta[name="theme-color"]')?.setAttribute("content", paper || "#000");
  });
}
