// What the counting screen counts: which eggs are in hand, what a tap writes, how the strip is drawn. No screen here.

import type { EggShape } from "./parts/egg.tsx";
import type { EggCount } from "./parts/egg-rows.ts";

export type TallyWhat = "candle" | "lockdown" | "hatch" | "open";
export const TALLIES: readonly TallyWhat[] = ["candle", "lockdown", "hatch", "open"];

/** A batch as the tally sees it; `lot` null stands for eggs whose family is not known. */
export interface TallyBatch {
  readonly lot: string | null;
  readonly n: number;
  readonly stages: Readonly<Record<string, number>>;
  /** Seen on the day of this tally, nothing moved. */
  readonly live: number;
  readonly unsure: number;
  /** Still in the shell. */
  readonly pipped: number;
  /** Of those hatched. */
  readonly weak: number;
  readonly helped: number;
}

export type Answer =
  | { readonly does: "look"; readonly sees: "live" | "unsure" | "pipped" }
  | {
      readonly does: "move";
      readonly to: string;
      readonly mark?: "helped" | "weak" | "died";
      /** How long an opened egg had lived, where the keeper could tell. */
      readonly age_days?: number;
    }
  | { readonly does: "none" };

export interface TallyKey {
  readonly id: string;
  readonly shape: EggShape;
  readonly answer: Answer;
}

const look = (sees: "live" | "unsure" | "pipped"): TallyKey => ({
  id: sees,
  shape: sees,
  answer: { does: "look", sees },
});
const move = (to: string, shape: EggShape): TallyKey => ({ id: to, shape, answer: { does: "move", to } });

const HELPED: TallyKey = {
  id: "helped",
  shape: "hatched",
  answer: { does: "move", to: "hatched", mark: "helped" },
};

/** The six answers of each tally, in the order of the keys 1 to 6; the first is the large one. */
export const KEYS: Record<TallyWhat, readonly TallyKey[]> = {
  candle: [
    look("live"),
    move("clear", "clear"),
    move("blood_ring", "blood_ring"),
    move("quitter", "quitter"),
    look("unsure"),
    move("cracked", "cracked"),
  ],
  lockdown: [
    move("locked", "locked"),
    move("clear", "clear"),
    move("blood_ring", "blood_ring"),
    move("quitter", "quitter"),
    move("rotten", "rotten"),
    move("cracked", "cracked"),
  ],
  hatch: [
    move("hatched", "hatched"),
    look("pipped"),
    { id: "weak", shape: "weak", answer: { does: "move", to: "hatched", mark: "weak" } },
    HELPED,
    { id: "lost", shape: "lost", answer: { does: "move", to: "hatched", mark: "died" } },
    { id: "none", shape: "hand", answer: { does: "none" } },
  ],
  open: [
    move("infertile", "infertile"),
    move("dead_early", "dead_early"),
    move("dead_mid", "dead_mid"),
    move("dead_late", "dead_late"),
    move("dead_internal_pip", "dead_internal_pip"),
    move("dead_external_pip", "dead_external_pip"),
  ],
};

/** Rarer answers, behind "something else". */
export const OTHER_KEYS: Record<TallyWhat, readonly TallyKey[]> = {
  candle: [move("rotten", "rotten"), move("taken", "gone"), move("unaccounted", "missing")],
  lockdown: [move("taken", "gone"), move("unaccounted", "missing")],
  hatch: [move("unhatched", "unhatched"), move("rotten", "rotten"), move("unaccounted", "missing")],
  open: [HELPED, move("unaccounted", "missing")],
};

/** A pipped egg is still in its shell, and "nothing new" is about none: both are asked for again. */
export function leavesHand(answer: Answer): boolean {
  return answer.does === "move" || (answer.does === "look" && answer.sees !== "pipped");
}

/** To how many of the eggs in hand an answer can be given: an egg that is pipped does not pip again. */
export function roomFor(answer: Answer, left: number, pipped: number): number {
  return answer.does === "look" && answer.sees === "pipped" ? Math.max(0, left - pipped) : left;
}

/** An egg that hatched after all had been laid by as unhatched; nothing hatches out of the other piles. */
export function isPossible({ answer }: TallyKey, what: TallyWhat, pile: Pile): boolean {
  return what !== "open" || pile === "unhatched" || answer.does !== "move" || answer.to !== "hatched";
}

export const PILES = ["unhatched", "clear", "blood_ring", "quitter", "rotten"] as const;
export type Pile = (typeof PILES)[number];

const OUT: readonly { stage: string; shape: EggShape }[] = [
  { stage: "clear", shape: "clear" },
  { stage: "blood_ring", shape: "blood_ring" },
  { stage: "quitter", shape: "quitter" },
  { stage: "cracked", shape: "cracked" },
  { stage: "rotten", shape: "rotten" },
  { stage: "unhatched", shape: "unhatched" },
  { stage: "taken", shape: "gone" },
  { stage: "unaccounted", shape: "missing" },
];
const OPENED: readonly { stage: string; shape: EggShape }[] = [
  "infertile",
  "dead_early",
  "dead_mid",
  "dead_late",
  "dead_internal_pip",
  "dead_external_pip",
].map((stage) => ({ stage, shape: stage as EggShape }));
const OUT_CHICKS = ["hatched", "brooding", "growing", "flock", "parted"];
const LOST_CHICKS = ["died", "culled"];

const held = (stages: Readonly<Record<string, number>>, names: readonly string[]) =>
  names.reduce((sum, name) => sum + Math.max(0, stages[name] ?? 0), 0);

/** How many eggs rest on a pile. Eggs still in a machine are opened as "did not hatch". */
export function onPile(batch: TallyBatch, pile: Pile): number {
  return pile === "unhatched"
    ? held(batch.stages, ["unhatched", "locked", "set"])
    : held(batch.stages, [pile]);
}

/** Eggs of the batch that still wait for an answer in this tally. */
export function inHand(what: TallyWhat, batch: TallyBatch, pile: Pile | null = null): number {
  if (what === "candle")
    return Math.max(0, held(batch.stages, ["set", "locked"]) - batch.live - batch.unsure);
  if (what === "lockdown") return held(batch.stages, ["set"]);
  if (what === "hatch") return held(batch.stages, ["locked", "set"]);
  const piles: readonly Pile[] = pile ? [pile] : PILES;
  return piles.reduce((sum, name) => sum + onPile(batch, name), 0);
}

/** The answer "the rest are ..." gives, or null where there is none. */
export function restAnswer(what: TallyWhat, pile: Pile): Answer | null {
  if (what === "candle") return { does: "look", sees: "live" };
  if (what === "lockdown") return { does: "move", to: "locked" };
  if (what === "hatch") return { does: "move", to: "unhatched" };
  return pile === "clear" ? { does: "move", to: "infertile" } : null;
}

export interface TallyStrip {
  readonly upright: readonly EggCount[];
  readonly out: readonly EggCount[];
}

/** One small egg for each egg of the batch: those judged first, those in hand last, those taken out lying. */
export function stripOf(what: TallyWhat, batch: TallyBatch, pile: Pile | null = null): TallyStrip {
  const n = (stage: string) => held(batch.stages, [stage]);
  const shaped = (list: readonly { stage: string; shape: EggShape }[]) =>
    list.map(({ stage, shape }) => ({ shape, n: n(stage) })).filter((count) => count.n > 0);
  const hand = { shape: "hand" as const, n: inHand(what, batch, pile) };
  if (what === "candle") {
    const judged = [
      { shape: "live" as const, n: batch.live },
      { shape: "unsure" as const, n: batch.unsure },
      hand,
    ];
    return { upright: judged.filter((count) => count.n > 0), out: shaped([...OUT, ...OPENED]) };
  }
  if (what === "lockdown") {
    return {
      upright: [{ shape: "locked" as const, n: n("locked") }, hand].filter((count) => count.n > 0),
      out: shaped([...OUT, ...OPENED]),
    };
  }
  if (what === "hatch") {
    const pipped = Math.min(batch.pipped, hand.n);
    const upright = [
      { shape: "hatched" as const, n: held(batch.stages, OUT_CHICKS) },
      { shape: "pipped" as const, n: pipped },
      { shape: "hand" as const, n: hand.n - pipped },
    ];
    const lost = { shape: "lost" as const, n: held(batch.stages, LOST_CHICKS) };
    return {
      upright: upright.filter((count) => count.n > 0),
      out: [lost, ...shaped([...OUT, ...OPENED])].filter((count) => count.n > 0),
    };
  }
  const closed = (pile ? [pile] : PILES).map((name) => ({
    shape: name === "unhatched" ? ("hand" as const) : (name as EggShape),
    n: onPile(batch, name),
  }));
  return { upright: closed.filter((count) => count.n > 0), out: shaped(OPENED) };
}

/** How many eggs have had this answer so far, for the number on its key. */
export function answered(key: TallyKey, batch: TallyBatch): number {
  const { answer } = key;
  if (answer.does === "look") return batch[answer.sees];
  if (answer.does === "none") return 0;
  if (answer.mark === "weak" || answer.mark === "helped") return batch[answer.mark];
  if (answer.mark === "died") return held(batch.stages, LOST_CHICKS);
  if (answer.to === "hatched") return held(batch.stages, OUT_CHICKS);
  return held(batch.stages, [answer.to]);
}

/** The id of an answer, as its key has it. */
export function answerId(answer: Answer): string {
  if (answer.does === "look") return answer.sees;
  if (answer.does === "none") return "none";
  return answer.mark === "died" ? "lost" : (answer.mark ?? answer.to);
}
