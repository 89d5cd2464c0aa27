// What is worked out on the server: words for waiting, for no answer, and for an old one.

export const answers = {
  over: (when: string) => `As worked out ${when}`,
  waiting: "Asking the server",
  unpaired:
    "This is worked out on the server. Pair this phone with it, and it comes with the next connection.",
  away: "The server cannot be reached, and this phone has no earlier answer. Everything you write is kept.",
  pair: "Pair this phone",
  again: "Ask again",
  stale: (when: string) => `The server cannot be reached; this is its answer of ${when}.`,
  problems: "To look at",
  print: "Print",
} as const;

const oneDigit = () => new Intl.NumberFormat(undefined, { maximumFractionDigits: 1 });

/** A share as percent with at most one digit behind the point: "4.2 %"; so little that it would read 0, "under 0.1 %". */
export function pct(share: number): string {
  return share > 0 && share < 0.0005 ? "under 0.1 %" : `${oneDigit().format(100 * share)} %`;
}

/** A chance in whole percent; what is not certain is never said to be. */
export function chanceTold(share: number): string {
  if (share > 0 && share < 0.005) return "under 1 %";
  if (share < 1 && share >= 0.995) return "over 99 %";
  return `${Math.round(100 * share)} %`;
}
