// What the server makes of one setting: what stands out, and what may be behind it.
import type { OwnWords } from "../../book/own-words.ts";

const atWorst = (worst: string | null) => (worst === null ? "" : `, ${worst} at worst`);

export const meaning = {
  link: "What it may mean",
  waiting: "Asking the server",
  none: {
    title: "No answer from the server yet",
    unpaired: "The server works out what stands out, and why it may. Pair this phone with it once.",
    go: "Pair this phone",
    away: "What stands out, and what may be behind it, is worked out by the server. It cannot be reached now.",
    again: "Ask again",
  },
  calm: "Nothing stands out",
  over: (when: string) => `The server's answer of ${when}`,
  stale: (when: string) =>
    `The server cannot be reached. This is its answer of ${when}; what was written since is not in it.`,
  losses: "In the losses",
  hatch: "In the hatch",
  air: "In the air",
  notes: "To bear in mind",
  problems: "To look at",
  often: "Often seen with",
  spell: {
    hot: (when: string, hours: string, worst: string | null) =>
      `${when}: too warm for ${hours}${atWorst(worst)}`,
    cold: (when: string, hours: string, worst: string | null) =>
      `${when}: too cool for ${hours}${atWorst(worst)}`,
    power: (when: string, hours: string) => `${when}: no power for ${hours}`,
    on: (when: string) => `${when}: no power, not yet back`,
  },
  hours: (hours: number) => (hours < 1 ? `${Math.round(hours * 60)} minutes` : `${hours.toFixed(1)} hours`),
  tiers: { amber: "amber", red: "red" } as Readonly<Record<string, string>>,
  sources: "Where this was read",
  setting: ({ hatch }: OwnWords) => `The ${hatch.one}`,
} as const;
