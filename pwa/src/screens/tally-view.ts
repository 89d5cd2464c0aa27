// One setting as the counting screen needs it: its batches, its day, what was seen. Pure; today is an argument.
import { pippedIn, pipsOf } from "../book/pipped.ts";
import { type Lot, type Setting, type Standing, seenByDay } from "../book/standing.ts";
import { inHand, type Pile, type TallyBatch, type TallyWhat } from "./tally-plan.ts";

const DAY_MS = 86_400_000;

export interface TallyView {
  readonly setting: Setting;
  readonly batches: readonly Lot[];
  /** In set or locked. */
  readonly inShell: number;
  readonly day: number;
}

export function tallyView(standing: Standing, setting: Setting, now_ms: number): TallyView {
  return {
    setting,
    batches: setting.lots.map((id) => standing.lots.get(id)).filter((lot) => lot !== undefined),
    inShell: held(setting.stages, ["set", "locked"]),
    day: Math.floor(dayNowOf(setting, now_ms)),
  };
}

/** Days since setting, with the part of the day. */
export function dayNowOf(setting: Setting, now_ms: number): number {
  return (now_ms - setting.setAtMs) / DAY_MS;
}

/** Eggs or chicks in these stages; a stage below zero holds none. */
export const held = (stages: ReadonlyMap<string, number>, names: readonly string[]) =>
  names.reduce((sum, name) => sum + Math.max(0, stages.get(name) ?? 0), 0);

/** A batch for the counting screen, with what was seen on `day`, and with all pips that are not out yet. */
export function tallyBatch(lot: Lot, what: TallyWhat, day: number): TallyBatch {
  const seen = what === "hatch" ? undefined : seenByDay(lot, "candled").get(day);
  const marked = (mark: "weak" | "helped") =>
    lot.moves.filter((move) => move[mark]).reduce((total, move) => total + move.n, 0);
  return {
    lot: lot.id,
    n: lot.n,
    stages: Object.fromEntries(lot.stages),
    live: seen?.live ?? 0,
    unsure: seen?.unsure ?? 0,
    pipped: what === "hatch" ? pipsOf([lot]).now : 0,
    weak: marked("weak"),
    helped: marked("helped"),
  };
}

/** All batches of a setting as one, for eggs whose family is not known. */
export function amongBatch(view: TallyView, what: TallyWhat, day: number): TallyBatch {
  const parts = view.batches.map((lot) => tallyBatch(lot, what, day));
  const sum = (of: "live" | "unsure" | "weak" | "helped" | "n") =>
    parts.reduce((total, part) => total + part[of], 0);
  return {
    lot: null,
    n: sum("n"),
    stages: Object.fromEntries(view.setting.stages),
    live: sum("live"),
    unsure: sum("unsure"),
    pipped: what === "hatch" ? pippedIn(view.setting, view.batches) : 0,
    weak: sum("weak"),
    helped: sum("helped"),
  };
}

/** Eggs of the whole setting that wait for an answer; those moved with no family known are taken off. */
export function leftInSetting(view: TallyView, what: TallyWhat, day: number): number {
  return inHand(what, amongBatch(view, what, day));
}

/** A tray that is looked through in one go: whoever comes back to it after longer has had it in the machine. */
const ONE_GO_MS = 2 * 3_600_000;

/**
 * Eggs of a batch (null: of the setting) in hand, at the opening those of one pile. What was moved with the family not
 * known came out of one of the batches: none holds more than all together.
 */
export function leftInHand(
  view: TallyView,
  what: TallyWhat,
  day: number,
  lot: string | null,
  pile: Pile | null,
): number {
  const all = amongBatch(view, what, day);
  const batch = view.batches.find((one) => one.id === lot);
  return Math.min(inHand(what, all), inHand(what, batch ? tallyBatch(batch, what, day) : all, pile));
}

/** Since when the eggs have been out: the opening of the tally, or the first tap of it where the app was closed since. */
export function outSince(view: TallyView, day: number, opened_ms: number): number {
  const acts = view.batches.flatMap((lot) => [...lot.looks, ...lot.moves]);
  const times = acts
    .filter((act) => act.day === day && act.atMs > opened_ms - ONE_GO_MS)
    .map(({ atMs }) => atMs);
  return Math.min(opened_ms, ...times);
}
