// The keeper's own words for a breeding group and for eggs set together. Mirrors server/broodline/book/own_words.py.

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

/** A text of a table, with {own_family} and {own_families} filled in. */
export const inOwnWords = (text: string, { family }: OwnWords): string =>
  text.replaceAll("{own_family}", family.one).replaceAll("{own_families}", family.many);
