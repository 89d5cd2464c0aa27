// Names of what the book holds, with plain words where a name is not on this phone yet.

import { capital } from "../app/words/capital.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { ownWords } from "../book/own-words.ts";
import type { Lot, Standing } from "../book/standing.ts";

export const familyName = (standing: Standing, family: string | null | undefined): string =>
  (family && standing.families.get(family)?.name) || unnamedFamily(standing);

/** For one that this phone has not heard of yet. */
export const unnamedFamily = ({ keeper }: Pick<Standing, "keeper">): string =>
  everywhere.unnamedFamily(ownWords(keeper.words).family.one);

/** For eggs of which it is not known whose they are. */
export const unknownFamily = ({ keeper }: Pick<Standing, "keeper">): string =>
  everywhere.unknownFamily(capital(ownWords(keeper.words).family.one));

export const batchName = (standing: Standing, lot: Lot | undefined): string =>
  familyName(standing, lot?.family);

export const placeName = (standing: Standing, place: string | null | undefined): string =>
  (place && standing.places.get(place)?.name) || everywhere.unnamedPlace;

/** "Rowan R": the family with the sign on the shell, where two batches of a setting share a family. */
export function batchNames(standing: Standing, lots: readonly Lot[]): Map<string, string> {
  const plain = lots.map((lot) => batchName(standing, lot));
  return new Map(
    lots.map((lot, at) => {
      const name = plain[at] ?? unnamedFamily(standing);
      const twice = plain.filter((other) => other === name).length > 1;
      return [lot.id, twice ? `${name} ${lot.sign ?? at + 1}` : name];
    }),
  );
}
