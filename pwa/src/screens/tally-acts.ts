// What a tap of the counting screen writes: each answer becomes one entry of the book.
import type { Entry } from "../book/entries.ts";
import {
  diedHatching,
  hatched,
  lookLive,
  lookNone,
  lookPipped,
  lookUnsure,
  openEgg,
  take,
} from "../state/tally.ts";
import type { Answer, Pile, TallyWhat } from "./tally-plan.ts";

export interface Tap {
  readonly what: TallyWhat;
  readonly setting: string;
  /** The lot; or all lots of the setting where the family is not known. */
  readonly lot: string | readonly string[];
  readonly answer: Answer;
  readonly n: number;
  readonly day: number;
  /** The pile an egg is opened from. */
  readonly pile: Pile;
  /** When it was seen; null: now. */
  readonly at: Date | null;
}

/** Eggs are looked at in the machine they lie in; whoever opens them has the hatcher's and the incubator's together. */
const lyingIn = (what: TallyWhat, pile: Pile): readonly string[] => {
  if (what === "hatch") return ["locked", "set"];
  if (what !== "open") return ["set", "locked"];
  return pile === "unhatched" ? ["unhatched", "locked", "set"] : [pile];
};

/** Writes the answer for n eggs. Null where a look is asked of eggs whose family is not known. */
export function write({ what, setting, lot, answer, n, day, pile, at }: Tap): Promise<Entry> | null {
  if (answer.does !== "move") {
    if (typeof lot !== "string") return null;
    const look = { setting, lot, day, n, at };
    if (answer.does === "none") return lookNone(look);
    return { live: lookLive, unsure: lookUnsure, pipped: lookPipped }[answer.sees](look);
  }
  const { to, mark, age_days } = answer;
  const from = lyingIn(what, pile);
  if (mark === "died") return diedHatching({ lot, from, n, day, at });
  if (to === "hatched") return hatched({ lot, from, n, day, at, ...(mark ? { [mark]: true } : {}) });
  if (what === "open") {
    // The day of an opened egg is the age at which it died, never that of the opening.
    const age = age_days === undefined ? {} : { day: age_days };
    return to === "unaccounted"
      ? take({ lot, from, to, n, why: "opened", at })
      : openEgg({ lot, from, to, n, at, ...age });
  }
  const why = ({ candle: "candled", lockdown: "lockdown", hatch: "hatch" } as const)[what];
  return take({ lot, from, to, n, day, why, at });
}
