// A newer app is ready.

export const update = {
  ready: "A newer Broodline is ready.",
  safe: "Your book stays as it is.",
  now: "Change over",
  later: "Later",
  /** In place of the words above where something on the screen is half typed. */
  half: {
    ready: "What you typed here is not saved yet.",
    safe: "Save it first; changing over now would lose it.",
    now: "Change over all the same",
  },
} as const;
