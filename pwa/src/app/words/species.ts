// Words that differ by species.

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
