// What a tap of the counting screen writes: each answer becomes one entry of the book.
import type { Entry } from "../book/entries.ts";
import { record } from "../state/actions.ts";
import {
  hatched,
  lookLive,
  lookNone,
  lookPipped,
  lookUnsure,
  openEgg,
  type Take,
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
  /** Where the egg lies: in a machine, or on a pile of those taken out of it. */
  readonly from: Pile | "locked" | "set";
}

/** Writes the answer for n eggs. Null where a look is asked of eggs whose family is not known. */
export function write({ what, setting, lot, answer, n, day, from }: Tap): Promise<Entry> | null {
  if (answer.does !== "move") {
    if (typeof lot !== "string") return null;
    const look = { setting, lot, day, n };
    if (answer.does === "none") return lookNone(look);
    return { live: lookLive, unsure: lookUnsure, pipped: lookPipped }[answer.sees](look);
  }
  const { to } = answer;
  if (what === "open" && to !== "unaccounted") return openEgg({ lot, from, to, n, day });
  if (what === "open") return take({ lot, from, to, n, day, why: "opened" });
  if (answer.mark === "died") return diedHatching(lot, from, n, day);
  const mark = answer.mark ? { [answer.mark]: true } : {};
  if (to === "hatched") return hatched({ lot, n, day, ...mark });
  const why = ({ candle: "candled", lockdown: "lockdown", hatch: "hatch" } as const)[what];
  return take({ lot, to, n, day, why });
}

/** Out of the shell and dead: two moves in one entry, so that one undo takes back both. */
function diedHatching(lot: Take["lot"], from: Tap["from"], n: number, day: number): Promise<Entry> {
  const whose = typeof lot === "string" ? { lot } : { among: [...lot] };
  return record("moved", {
    moves: [
      { ...whose, from, to: "hatched", n },
      { ...whose, from: "hatched", to: "died", n },
    ],
    why: "hatch",
    day,
  });
}
