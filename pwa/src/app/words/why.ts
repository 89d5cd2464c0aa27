// "Why?" beside a figure: the same few words everywhere.

/** How far a figure of the tables can be trusted. */
export type SourceStatus = "seen" | "mirror" | "memory" | "derived" | "practice";

export const why = {
  ask: "Why?",
  from: (title: string, status: string | null) =>
    status ? `Source: ${title}; ${status}.` : `Source: ${title}.`,
  status: {
    seen: "read in the source itself",
    mirror: "read on a copy of it",
    memory: "commonly used, not yet checked against its source",
    derived: "worked out from it",
    practice: "no published source",
  },
} as const satisfies {
  readonly status: Readonly<Record<SourceStatus, string>>;
  readonly [word: string]: unknown;
};

/** The rates of eggs. */
export const rateWhy = {
  about: "the rates of these eggs",
  interval: "Dot: what was seen. Bar: where the true rate lies, 95 times in 100; the fewer eggs, the wider.",
  formula: {
    fertility: "those that began to grow, of those examined",
    hatchOfSet: "chicks out, of all eggs set",
    hatchOfFertile: "chicks out, of the fertile",
  },
  leftOut:
    "Cracked, rotten, sold and missing eggs are not examined: they stand in neither number. A clear egg counts as infertile until opened.",
  wilson: "Wilson's score interval, E. B. Wilson, J. Am. Stat. Assoc. 22 (1927)",
} as const;
