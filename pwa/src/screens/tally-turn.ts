// The acts of an open tally: answer, the rest, undo, look again. Each says what it did, aloud if asked.

import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { tally as words } from "../app/words/tally.ts";
import type { Entry } from "../book/entries.ts";
import type { Lot } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { sound, spoken, vibration } from "../state/choices.ts";
import { recent } from "../state/recording.ts";
import type { Sign } from "../state/signs.ts";
import { standing } from "../state/standing.ts";
import { write } from "./tally-acts.ts";
import {
  type Answer,
  answered,
  answerId,
  leavesHand,
  type Pile,
  restAnswer,
  roomFor,
  type TallyBatch,
  type TallyWhat,
} from "./tally-plan.ts";
import { leftInHand, type TallyView, tallyBatch, tallyView } from "./tally-view.ts";
import { answersIn, lotsIn, whoseIn } from "./told-entry.ts";

export interface Turn {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly day: number;
  readonly batch: TallyBatch;
  readonly pile: Pile;
  readonly name: string;
  readonly left: number;
  /** When it was seen, where that was not now. */
  readonly at: Date | null;
  readonly now_ms: number;
}

/** What lies beside the six answers. */
export type Panel = "keys" | "typed" | "again" | "back" | "so-far" | "guide" | "when";

/** An open tally, as its panels need it. */
export interface Counting extends Turn {
  /** The batch on the screen; null where the family is not known. */
  readonly shown: Lot | null;
  readonly names: ReadonlyMap<string, string>;
  readonly everyLeft: number;
  readonly acts: TallyActs;
  /** Minutes the tray has been out; null where nothing lies in the cold. */
  readonly out_min: number | null;
  readonly open: (panel: Panel) => void;
  readonly choose: (lot: string | null) => void;
  readonly setAt: (at: Date | null) => void;
}

export interface TallyActs {
  /** False, and nothing written, where the book has not so many in hand. */
  readonly answer: (answer: Answer, n?: number) => boolean;
  readonly rest: (() => void) | null;
  /** What Undo would take back, in words; null where nothing was written since the app was opened. */
  readonly last: string | null;
  readonly undo: () => void;
  /** Says how many are in hand, once, whether or not each count is spoken. */
  readonly say: () => void;
  readonly unsure: number;
  /** Puts the eggs one was not sure of back in hand. */
  readonly lookAgain: () => void;
}

export function answerWords(id: string): string {
  const region = regionOf(standing.value.keeper.region);
  return (words.buttons as Readonly<Record<string, string>>)[id] ?? stageWords(id, region).button;
}

/** What these moves carry stays in sight: the sign for it is that of an egg kept. */
const STAY: readonly string[] = ["locked", "hatched"];

let signsScript: Promise<typeof import("../state/signs.ts")> | null = null;

/** Fetched only for a keeper who wants tone, buzz or voice; once, so that they come in the order of the taps. */
function fetchSigns() {
  signsScript ??= import("../state/signs.ts").catch((fault) => {
    signsScript = null;
    throw fault;
  });
  return signsScript;
}

function tell(sign: Sign, text: string): void {
  if ([sound, vibration, spoken].every((one) => one.value !== "yes")) return;
  void fetchSigns().then((signs) => {
    signs.give(sign);
    signs.say(text);
  });
}

/** What Undo takes back; with the family's name where that is not the one on the screen. */
function lastWords(entry: Entry, shown: string): string {
  const whose = whoseIn(entry, standing.value);
  const act = answersIn(entry);
  return !whose || shown.startsWith(whose) ? act : words.lastOf(whose, act);
}

/** Eggs that can be given an answer in the book as it is now: a second tap may come before the first is drawn. */
function roomNow({ view, what, day, batch, pile, now_ms }: Turn, answer: Answer): number {
  const setting = standing.value.settings.get(view.setting.id);
  if (!setting) return 0;
  const now = tallyView(standing.value, setting, now_ms);
  const lot = now.batches.find((one) => one.id === batch.lot);
  const pipped = lot ? tallyBatch(lot, what, day).pipped : 0;
  return roomFor(answer, leftInHand(now, what, day, batch.lot, pile), pipped);
}

export function useTallyActs(turn: Turn): TallyActs {
  const { view, what, day, batch, pile, name, left, at } = turn;
  const setting = view.setting.id;
  const lots = new Set(view.setting.lots);
  const mine = recent.value.filter((entry) => belongs(entry, setting, lots));
  const last = mine.at(-1);
  const answer = (given: Answer, n = 1) => {
    const lot = batch.lot ?? view.setting.lots;
    if (given.does !== "none" && roomNow(turn, given) < n) return false;
    const writing = write({ what, setting, lot, answer: given, n, day, pile, at });
    if (!writing) return false;
    writing.catch(() => undefined); // a write that is not durable yet is told on every screen
    const id = answerId(given);
    const sofar = answered({ id, shape: "hand", answer: given }, batch) + n;
    const goesOut = given.does === "move" && !STAY.includes(given.to);
    const isThrough = left === n && leavesHand(given);
    const sign = isThrough ? "done" : goesOut ? "out" : "kept";
    tell(
      sign,
      given.does === "none" ? words.buttons.none : words.saying(name, sofar, answerWords(id).toLowerCase()),
    );
    return true;
  };
  const rest = restAnswer(what, pile);
  const unsureLooks = view.batches
    .filter((lot) => lot.id === batch.lot)
    .flatMap((lot) => lot.looks)
    .filter((look) => look.day === day && look.what === "candled" && look.unsure > 0);
  return {
    answer,
    rest: rest && (rest.does === "move" || batch.lot !== null) ? () => void answer(rest, left) : null,
    last: last ? lastWords(last, name) : null,
    undo: () => {
      if (!last) return;
      void undo(last.id);
      tell("back", words.lastTitle);
    },
    say: () => {
      const text = words.saying(name, left, words.inHand);
      void fetchSigns().then((signs) => signs.say(text, true));
    },
    unsure: unsureLooks.reduce((sum, look) => sum + look.unsure, 0),
    lookAgain: () => void undo(...unsureLooks.map((look) => look.entry)),
  };
}

function belongs(entry: Entry, setting: string, lots: ReadonlySet<string>): boolean {
  if (!["looked", "moved", "counted", "locked"].includes(entry.kind)) return false;
  return entry.body.setting === setting || lotsIn(entry).some((lot) => lots.has(lot));
}
