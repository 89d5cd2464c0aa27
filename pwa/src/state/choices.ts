import { type Signal, signal } from "@preact/signals";

// How this phone shows the app: not part of the book, so it stays on the phone. The first script of the page
// (public/first.js) reads the same keys before anything is painted.

export const THEMES = ["auto", "day", "night", "hatch-room"] as const;
export const TONES = ["red", "amber"] as const;
export const HANDS = ["right", "left"] as const;
export const LETTERS = ["usual", "large", "largest"] as const;
export const ANSWERS = ["unasked", "yes", "no"] as const;

export type Theme = (typeof THEMES)[number];
export type Tone = (typeof TONES)[number];
export type Hand = (typeof HANDS)[number];
export type Letters = (typeof LETTERS)[number];
export type Choice = (typeof ANSWERS)[number];

/** A browser that keeps nothing still shows the app; the choice then lasts as long as the page. */
function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function chosen<Value extends string>(key: string, values: readonly [Value, ...Value[]]): Signal<Value> {
  const written = kept(key);
  return signal(values.find((value) => value === written) ?? values[0]);
}

const KEYS = {
  theme: "broodline-theme",
  tone: "broodline-tone",
  hand: "broodline-hand",
  letters: "broodline-letters",
  keepAwake: "broodline-awake",
  spoken: "broodline-spoken",
  sound: "broodline-sound",
  vibration: "broodline-vibration",
  webs: "broodline-webs",
} as const;

export const theme = chosen(KEYS.theme, THEMES);
export const tone = chosen(KEYS.tone, TONES);
export const hand = chosen(KEYS.hand, HANDS);
/** How big the letters are, and with them everything that is measured by them. */
export const letters = chosen(KEYS.letters, LETTERS);
/** Keep the screen on while counting: asked once. */
export const keepAwake = chosen(KEYS.keepAwake, ANSWERS);
/** Say each count aloud. */
export const spoken = chosen(KEYS.spoken, ANSWERS);
/** A short tone and a short buzz with each answer of a tally: beside what is shown, never in its place. */
export const sound = chosen(KEYS.sound, ANSWERS);
export const vibration = chosen(KEYS.vibration, ANSWERS);

/** Whether toe webs may be punched where this keeper is, and whether they want it: asked before the first mark. */
export const webs = chosen(KEYS.webs, ANSWERS);

const SIGNALS = { theme, tone, hand, letters, keepAwake, spoken, sound, vibration, webs };

/** Takes a choice and keeps it for the next time the app is opened. */
export function choose<Key extends keyof typeof KEYS>(key: Key, value: (typeof SIGNALS)[Key]["value"]): void {
  (SIGNALS[key] as Signal<typeof value>).value = value;
  try {
    localStorage.setItem(KEYS[key], value);
  } catch {
    // The choice lasts as long as the page.
  }
}
