import type { Bird, Came, Left, Tag } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { inStage, type Lot } from "../book/standing.ts";
import { record } from "./actions.ts";
import { openDesk } from "./desk.ts";
import { amend } from "./holding.ts";
import { type Draft, write } from "./recording.ts";
import { standing } from "./standing.ts";

/** Chicks that are chosen, and birds that are known by themselves. Each act is saved whole or not at all. */

/** A chick that is kept, as it is known from now on. */
export interface Kept {
  readonly name?: string;
  readonly sex: Bird["sex"];
  readonly tag?: Tag | null;
  readonly webs?: Bird["webs"];
}

/** From which stages chicks are kept, the oldest first; those still in the basket go to a brooder before. */
const KEPT_FROM = ["growing", "brooding"] as const;
const GOES_FROM = ["growing", "brooding", "hatched"] as const;

/** Chicks of one batch that may be kept now. */
export const mayKeep = (lot: Lot): number => inAny(lot, KEPT_FROM);

/** Chicks of one batch that are here and not kept yet. */
export const mayGo = (lot: Lot): number => inAny(lot, GOES_FROM);

/**
 * Chicks of a batch join the birds kept, each as a bird of its own: the move and the birds, all or none. hatchedOn: the
 * day their half was out, or null. The batch they came from brings their candidate parents.
 */
export function keepChicks(lot: Lot, kept: readonly Kept[], hatchedOn: string | null): Promise<Entry[]> {
  const birds = kept.map(
    ({ name, sex, tag, webs }): Draft => ({
      kind: "bird",
      body: {
        sex,
        lots: [{ lot: lot.id, share: 1 }],
        ...(name ? { name } : {}),
        ...(lot.family ? { family: lot.family } : {}),
        ...(hatchedOn ? { hatched_on: hatchedOn } : {}),
        ...(tag ? { tags: [tag] } : {}),
        ...(webs?.length ? { webs } : {}),
      },
    }),
  );
  return write([{ kind: "moved", body: { moves: movesOf(lot, KEPT_FROM, "flock", kept.length) } }, ...birds]);
}

/** Chicks of a batch that stand among the birds already leave the batch: it counts them as kept. */
export function joinBirds(lot: Lot, n: number): Promise<Entry> {
  return record("moved", { moves: movesOf(lot, GOES_FROM, "flock", n) });
}

export type Going = "parted" | "culled" | "died";

/** Chicks of a batch that go: sold or given (who: to whom), culled, or dead (cause: a code of the table). */
export function chicksGo(
  lot: Lot,
  n: number,
  to: Going,
  { who, cause, at }: { readonly who?: string; readonly cause?: string; readonly at?: Date },
): Promise<Entry> {
  const moves = movesOf(lot, GOES_FROM, to, n);
  const why = to === "parted" ? ("left" as const) : ("lost" as const);
  const body = { moves, why, ...(who ? { who } : {}), ...(cause ? { cause } : {}) };
  return record("moved", body, at ? { at } : {});
}

/** Birds of the book that leave it, each with an entry of its own, or are lent out. */
export function birdsLeave(birds: readonly string[], how: Omit<Left, "bird">): Promise<Entry[]> {
  return write(birds.map((bird): Draft => ({ kind: "left", body: { bird, ...how } })));
}

/** A bird of the book comes back. */
export function birdBack(bird: string, on: string, from?: string): Promise<Entry> {
  return record("came", { bird, on, how: "returned", ...(from ? { from } : {}) });
}

/** A bird from elsewhere: written down and come, both or neither. */
export function birdComes(bird: Bird, came: Omit<Came, "bird" | "lot" | "n">): Promise<Entry[]> {
  const id = openDesk().ids.next();
  return write([
    { kind: "bird", body: bird, id },
    { kind: "came", body: { ...came, bird: id } },
  ]);
}

/** Chicks from elsewhere as a batch of their own, put into a place where one is named. */
export function chicksCome(came: Omit<Came, "bird" | "lot">, place: string | null): Promise<Entry[]> {
  const lot = openDesk().ids.next();
  const { n, stage } = came;
  const here = stage ?? "brooding";
  const drafts: Draft[] = [{ kind: "came", body: { ...came, lot } }];
  if (place && n) {
    drafts.push({ kind: "moved", body: { moves: [{ lot, from: here, to: here, n }], place } });
  }
  return write(drafts);
}

/** What is known of a bird changes: its sex, its name. */
export function changeBird(bird: string, changed: Partial<Bird>): Promise<Entry> {
  const head = standing.value.heads.bird?.find(({ root }) => root === bird);
  return amend(bird, "bird", { sex: "unknown", ...head?.body, ...changed });
}

function inAny(lot: Lot, stages: readonly string[]): number {
  return stages.reduce((sum, stage) => sum + Math.max(0, inStage(lot, stage)), 0);
}

/** n chicks out of these stages in turn; what is beyond them is taken from the first, and told as a problem. */
function movesOf(lot: Lot, stages: readonly string[], to: string, n: number) {
  let left = n;
  const moves = stages.flatMap((from) => {
    const some = Math.min(left, Math.max(0, inStage(lot, from)));
    left -= some;
    return some > 0 ? [{ lot: lot.id, from, to, n: some }] : [];
  });
  return left > 0 ? [...moves, { lot: lot.id, from: stages[0] ?? "growing", to, n: left }] : moves;
}
