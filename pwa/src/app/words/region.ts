// Words that differ by region or species. The codes in the book never change; only these do.

export type Region = "uk" | "us" | "au" | "elsewhere";

export const REGIONS: readonly { readonly value: Region; readonly text: string }[] = [
  { value: "uk", text: "Britain and Ireland" },
  { value: "us", text: "United States" },
  { value: "au", text: "Australia and New Zealand" },
  { value: "elsewhere", text: "Elsewhere" },
];

/** The region a keeper chose; anything unknown reads as "elsewhere". */
export function regionOf(code: string | null | undefined): Region {
  return REGIONS.find((region) => region.value === code)?.value ?? "elsewhere";
}

interface RegionTerms {
  readonly ring: string;
  readonly drinker: string;
  readonly starter: string;
  readonly cock: string;
  readonly quitter: string;
  readonly quitters: string;
}

const TERMS: Record<Region, RegionTerms> = {
  uk: {
    ring: "ring",
    drinker: "drinker",
    starter: "chick crumb",
    cock: "cock",
    quitter: "dead in shell",
    quitters: "dead in shell",
  },
  us: {
    ring: "band",
    drinker: "waterer",
    starter: "starter",
    cock: "rooster",
    quitter: "quitter",
    quitters: "quitters",
  },
  au: {
    ring: "ring",
    drinker: "drinker",
    starter: "starter",
    cock: "rooster",
    quitter: "quitter",
    quitters: "quitters",
  },
  elsewhere: {
    ring: "ring",
    drinker: "drinker",
    starter: "starter",
    cock: "cock",
    quitter: "quitter",
    quitters: "quitters",
  },
};

export const termsOf = (region: Region): RegionTerms => TERMS[region];

interface SpeciesTerms {
  readonly name: string;
  readonly one: string;
  readonly many: string;
}

const CHICKS = { one: "chick", many: "chicks" };

/** Species as a keeper says them, and what their young are called. */
const SPECIES: Readonly<Record<string, SpeciesTerms>> = {
  chicken: { name: "Chicken", ...CHICKS },
  turkey: { name: "Turkey", one: "poult", many: "poults" },
  duck: { name: "Duck", one: "duckling", many: "ducklings" },
  muscovy: { name: "Muscovy duck", one: "duckling", many: "ducklings" },
  goose: { name: "Goose", one: "gosling", many: "goslings" },
  guinea: { name: "Guinea fowl", one: "keet", many: "keets" },
  coturnix: { name: "Japanese quail", ...CHICKS },
  bobwhite: { name: "Bobwhite quail", ...CHICKS },
  pheasant: { name: "Pheasant", ...CHICKS },
  chukar: { name: "Chukar partridge", ...CHICKS },
  peafowl: { name: "Peafowl", one: "peachick", many: "peachicks" },
  pigeon: { name: "Pigeon", one: "squab", many: "squabs" },
  dove: { name: "Dove", one: "squab", many: "squabs" },
  swan: { name: "Swan", one: "cygnet", many: "cygnets" },
  emu: { name: "Emu", ...CHICKS },
};

/** The terms of a species; one the app does not know keeps its own code as its name. */
export function speciesTerms(code: string): SpeciesTerms {
  return (
    SPECIES[code] ?? { name: code.charAt(0).toUpperCase() + code.slice(1).replace(/_/g, " "), ...CHICKS }
  );
}

/** "1 chick", "12 ducklings". */
export const young = (n: number, species: string): string => {
  const terms = speciesTerms(species);
  return `${n} ${n === 1 ? terms.one : terms.many}`;
};
