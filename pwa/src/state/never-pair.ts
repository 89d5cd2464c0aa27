import type { Entry } from "../book/entries.ts";
import { nameKeeper } from "./holding.ts";
import { standing } from "./standing.ts";

/** The keeper's list of what is never paired: two birds by their ids, or what birds carry, and why. */

export type Never = readonly [one: string, other: string, why: string];

/** The list as it stands; lines of another shape are passed over. */
export const neverPaired = (): Never[] =>
  (standing.value.keeper.never_pair ?? []).flatMap(([one, other, why]): Never[] =>
    one !== undefined && other !== undefined ? [[one, other, why ?? ""]] : [],
  );

/** One more pair is ruled out. */
export const ruleOut = (pair: Never): Promise<Entry> => keep([...neverPaired(), pair]);

/** A pair may meet again. */
export const allowAgain = (pair: Never): Promise<Entry> =>
  keep(neverPaired().filter((other) => other.join("\n") !== pair.join("\n")));

function keep(pairs: readonly Never[]): Promise<Entry> {
  return nameKeeper({ ...standing.value.keeper, never_pair: pairs.map((pair) => [...pair]) });
}
