// The acts of an open tally: answer, the rest, undo, look again. Each says what it did, aloud if asked.

import { regionOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { tally as words } from "../app/words/tally.ts";
import type { Entry } from "../book/entries.ts";
import { undo } from "../state/actions.ts";
import { spoken } from "../state/choices.ts";
import { recent } from "../state/recording.ts";
import { standing } from "../state/standing.ts";
import { write } from "./tally-acts.ts";
import {
  type Answer,
  answerId,
  inHand,
  type Pile,
  restAnswer,
  type TallyBatch,
  type TallyWhat,
} from "./tally-plan.ts";
import type { TallyView } from "./tally-view.ts";
import { answersIn, lotsIn, whoseIn } from "./told-entry.ts";

interface Turn {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly day: number;
  readonly batch: TallyBatch;
  readonly pile: Pile;
  readonly name: string;
  readonly left: number;
}

export interface TallyActs {
  readonly answer: (answer: Answer, n?: number) => void;
  readonly rest: (() => void) | null;
  /** What Undo would take back, in words; null where nothing was written since the app was opened. */
  readonly last: string | null;
  readonly undo: () => void;
  readonly unsure: number;
  /** Puts the eggs one was not sure of back in hand. */
  readonly lookAgain: () => void;
}

export function answerWords(id: string): string {
  const region = regionOf(standing.value.keeper.region);
  return (words.buttons as Readonly<Record<string, string>>)[id] ?? stageWords(id, region).button;
}

/** Where the next egg lies: in the hatcher or the incubator or, to be opened, on a pile. */
function lyingIn(what: TallyWhat, batch: TallyBatch, pile: Pile): Pile | "locked" | "set" {
  const lies = (stage: string) => (batch.stages[stage] ?? 0) > 0;
  if (what !== "open") return lies("locked") || !lies("set") ? "locked" : "set";
  if (pile !== "unhatched") return pile;
  return (["unhatched", "locked", "set"] as const).find(lies) ?? "unhatched";
}

function say(text: string): void {
  if (spoken.value !== "yes" || typeof speechSynthesis === "undefined") return;
  speechSynthesis.cancel();
  speechSynthesis.speak(new SpeechSynthesisUtterance(text));
}

/** What Undo takes back; with the family's name where that is not the one on the screen. */
function lastWords(entry: Entry, shown: string): string {
  const whose = whoseIn(entry, standing.value);
  const act = answersIn(entry);
  return !whose || shown.startsWith(whose) ? act : words.lastOf(whose, act);
}

export function useTallyActs({ view, what, day, batch, pile, name, left }: Turn): TallyActs {
  const setting = view.setting.id;
  const lots = new Set(view.setting.lots);
  const mine = recent.value.filter((entry) => belongs(entry, setting, lots));
  const last = mine.at(-1);
  const answer = (given: Answer, n = 1) => {
    const lot = batch.lot ?? view.setting.lots;
    if (inHand(what, batch) < n && given.does !== "none") return;
    const writing = write({ what, setting, lot, answer: given, n, day, from: lyingIn(what, batch, pile) });
    if (!writing) return;
    writing.catch(() => undefined); // a write that is not durable yet is told on every screen
    const id = answerId(given);
    say(words.saying(name, n, answerWords(id).toLowerCase()));
  };
  const rest = restAnswer(what, pile);
  const unsureLooks = view.batches
    .filter((lot) => lot.id === batch.lot)
    .flatMap((lot) => lot.looks)
    .filter((look) => look.day === day && look.what === "candled" && look.unsure > 0);
  return {
    answer,
    rest: rest && (rest.does === "move" || batch.lot !== null) ? () => answer(rest, left) : null,
    last: last ? lastWords(last, name) : null,
    undo: () => {
      if (last) void undo(last.id);
    },
    unsure: unsureLooks.reduce((sum, look) => sum + look.unsure, 0),
    lookAgain: () => void undo(...unsureLooks.map((look) => look.entry)),
  };
}

function belongs(entry: Entry, setting: string, lots: ReadonlySet<string>): boolean {
  if (!["looked", "moved", "counted", "locked"].includes(entry.kind)) return false;
  return entry.body.setting === setting || lotsIn(entry).some((lot) => lots.has(lot));
}
