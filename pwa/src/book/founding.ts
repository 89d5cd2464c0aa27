/** Which lots there are: eggs named by a setting, and chicks that came as a lot. */
import { byAscii } from "./code-points.ts";
import { type Problem, problem } from "./problems.ts";
import { START } from "./stages.ts";
import type { Head, Heads } from "./standing.ts";

/** The identity behind an id: the root of its tree, or the id itself where the book does not hold it. */
export type Refer = (name: string) => string;

/** How a lot began: where, of which family, how many, in which stage. */
export interface Founding {
  readonly lot: string;
  readonly setting: string | null;
  readonly family: string | null;
  readonly n: number;
  readonly start: string;
  readonly came: boolean;
  readonly laidFrom: string | null;
  readonly laidTo: string | null;
  readonly boughtIn: boolean;
  readonly sign: string | null;
}

/** Every lot with its founding; a lot named by two entries belongs to the one of the smaller identity. */
export function foundLots(
  heads: Heads,
  refer: Refer,
): { foundings: ReadonlyMap<string, Founding>; problems: Problem[] } {
  const foundings = new Map<string, Founding>();
  const problems: Problem[] = [];
  const founders = [...(heads.set ?? []), ...(heads.came ?? [])].sort((a, b) => byAscii(a.root, b.root));
  for (const head of founders) {
    const begun = isSetting(head) ? ofSetting(head, refer) : ofComing(head, refer, problems);
    const here = new Set<string>();
    for (const founding of begun) {
      if (here.has(founding.lot)) problems.push(problem("lot_twice", head.id));
      else if (foundings.has(founding.lot)) problems.push(problem("lot_in_two_settings", head.id));
      else foundings.set(founding.lot, founding);
      here.add(founding.lot);
    }
  }
  return { foundings, problems };
}

/** A lot that moves name and nobody founded. */
export function unfounded(lot: string): Founding {
  return { ...NOTHING_KNOWN, lot, setting: null, family: null, n: 0, start: START, came: false };
}

const NOTHING_KNOWN = { laidFrom: null, laidTo: null, boughtIn: false, sign: null };

function isSetting(head: Head<"set"> | Head<"came">): head is Head<"set"> {
  return head.kind === "set";
}

function ofSetting(head: Head<"set">, refer: Refer): Founding[] {
  return head.body.lots.map((lot) => ({
    lot: lot.lot,
    setting: head.root,
    family: refer(lot.family),
    n: lot.n,
    start: START,
    came: false,
    laidFrom: lot.laid_from ?? null,
    laidTo: lot.laid_to ?? null,
    boughtIn: lot.from !== undefined && lot.from !== null,
    sign: lot.sign ?? null,
  }));
}

function ofComing({ id, body }: Head<"came">, refer: Refer, problems: Problem[]): Founding[] {
  const { lot, n, stage, family } = body;
  if (lot === undefined || lot === null) return [];
  if (n === undefined || n === null) {
    problems.push(problem("lot_without_number", id));
    return [];
  }
  const known = family === undefined || family === null ? null : refer(family);
  return [{ ...NOTHING_KNOWN, lot, setting: null, family: known, n, start: stage ?? "brooding", came: true }];
}
