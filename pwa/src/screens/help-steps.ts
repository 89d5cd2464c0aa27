// What each page of the handbook says, in the keeper's own words: for showing it and for looking through it. Pure.
import {
  HELP_TOPICS,
  type HelpTopic,
  manyDead,
  moreSteps,
  seen,
  steps,
  help as words,
} from "../app/words/help.ts";
import { marks } from "../app/words/marks.ts";
import type { Region } from "../app/words/region.ts";
import { safety } from "../app/words/safety.ts";
import { stageWords } from "../app/words/stages.ts";
import { cautions } from "../app/words/tally-panels.ts";
import type { OwnWords } from "../book/own-words.ts";
import { OPEN_AFTER_H } from "../trade/breakout.ts";
import { LOOK_AGAIN_DAYS, TRAY_OUT_MIN } from "../trade/candling.ts";
import { PIP_TO_OUT_H } from "../trade/hatch-hours.ts";
import { DARK_SHELL_DAY } from "../trade/species.ts";
import type { LampPicture } from "./parts/candled-egg.tsx";
import type { OpenedStage } from "./parts/opened-egg.tsx";

export const span = ([from, to]: readonly number[]) => `${from} to ${to}`;

export const LAMP: readonly LampPicture[] = ["live", "clear", "blood_ring", "quitter", "air_cell"];
export const OPENED: readonly OpenedStage[] = [
  "infertile",
  "dead_early",
  "dead_mid",
  "dead_late",
  "dead_internal_pip",
  "dead_external_pip",
];

export const CAUTIONS: Readonly<Record<HelpTopic, readonly string[]>> = {
  candle: [safety.mains, safety.hands],
  lockdown: [safety.mains],
  hatch: [cautions.lidWhy, safety.helping, safety.hands],
  open: [cautions.opening, safety.hands],
  mark: [marks.law.text],
  brood: [safety.coated, safety.mains, safety.hands],
  tally: [safety.alarm],
  intervals: [manyDead],
  server: [safety.alarm],
};

export const stepsOf = (topic: HelpTopic, own: OwnWords): readonly string[] =>
  ({
    candle: steps.candle(TRAY_OUT_MIN.value, DARK_SHELL_DAY, span(LOOK_AGAIN_DAYS.value)),
    lockdown: steps.lockdown(own),
    hatch: steps.hatch(span(PIP_TO_OUT_H.value), own),
    open: steps.open(OPEN_AFTER_H),
    mark: moreSteps.mark(own),
    brood: moreSteps.brood,
    tally: steps.tally(own),
    intervals: moreSteps.intervals(own),
    server: moreSteps.server,
  })[topic];

/** "Died early: blood, eyes just showing." */
export function openedTold(stage: OpenedStage, region: Region): string {
  const { button, seen: looks } = stageWords(stage, region);
  return `${button}: ${looks}.`;
}

export interface Found {
  readonly topic: HelpTopic;
  readonly lines: readonly string[];
}

/**
 * Pages that hold every word asked for (their beginnings are enough), with the lines that hold most of them; pages
 * with all words in one line first. Nothing for nothing asked.
 */
export function lookThrough(asked: string, own: OwnWords, region: Region): Found[] {
  const wanted = asked
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
  if (wanted.length === 0) return [];
  const hits = (line: string) => {
    const has = line.toLowerCase().split(/[^\p{L}\p{N}]+/u);
    return wanted.filter((word) => has.some((one) => one.startsWith(word))).length;
  };
  return HELP_TOPICS.flatMap((topic) => {
    const lines = [...linesOf(topic, own, region), ...CAUTIONS[topic]];
    const all = [words.topics[topic], words.headlines[topic], ...lines];
    if (hits(all.join(" ")) < wanted.length) return [];
    const best = Math.max(...lines.map(hits));
    return [{ topic, best, lines: best > 0 ? lines.filter((line) => hits(line) === best) : [] }];
  })
    .sort((a, b) => b.best - a.best)
    .map(({ topic, lines }) => ({ topic, lines }));
}

function linesOf(topic: HelpTopic, own: OwnWords, region: Region): readonly string[] {
  const shown =
    topic === "candle"
      ? LAMP.map((one) => seen[one])
      : topic === "open"
        ? OPENED.map((stage) => openedTold(stage, region))
        : [];
  return [...stepsOf(topic, own), ...shown];
}
