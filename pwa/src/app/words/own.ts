// The keeper's own words: what a breeding group is called, and what eggs set together are.

export const FAMILY_WORDS = ["family", "line", "strain"] as const;
export const HATCH_WORDS = ["setting", "hatch"] as const;

interface Term {
  readonly one: string;
  readonly many: string;
}

const FAMILIES: Readonly<Record<(typeof FAMILY_WORDS)[number], Term>> = {
  family: { one: "family", many: "families" },
  line: { one: "line", many: "lines" },
  strain: { one: "strain", many: "strains" },
};
const HATCHES: Readonly<Record<(typeof HATCH_WORDS)[number], Term>> = {
  setting: { one: "setting", many: "settings" },
  hatch: { one: "hatch", many: "hatches" },
};

export interface OwnWords {
  readonly family: Term;
  readonly hatch: Term;
}

/** What the keeper chose; anything unknown reads as the trade's usual word. */
export function ownWords(chosen: Readonly<Record<string, string>> | null | undefined): OwnWords {
  const family = FAMILY_WORDS.find((word) => word === chosen?.family) ?? "family";
  const hatch = HATCH_WORDS.find((word) => word === chosen?.hatch) ?? "setting";
  return { family: FAMILIES[family], hatch: HATCHES[hatch] };
}

/** "Families" at the start of a line. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
