// What each page of the handbook says, in the keeper's own words: for showing it and for looking through it. Pure.
import { type HelpTopic, manyDead, moreSteps, seen, steps } from "../app/words/help.ts";
import { trouble } from "../app/words/help-trouble.ts";
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
  late: [cautions.lidWhy, safety.mains],
  weak: [safety.hands, manyDead],
  kin: [],
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
    late: trouble.late(OPEN_AFTER_H, own),
    weak: trouble.weak,
    kin: trouble.kin(own),
    tally: steps.tally(own),
    intervals: moreSteps.intervals(own),
    server: moreSteps.server,
  })[topic];

/** "Died early: blood, eyes just showing." */
export function openedTold(stage: OpenedStage, region: Region): string {
  const { button, seen: looks } = stageWords(stage, region);
  return `${button}: ${looks}.`;
}

/** All that a page says, with what stands under its pictures. */
export function linesOf(topic: HelpTopic, own: OwnWords, region: Region): readonly string[] {
  const shown =
    topic === "candle"
      ? LAMP.map((one) => seen[one])
      : topic === "open"
        ? OPENED.map((stage) => openedTold(stage, region))
        : [];
  return [...stepsOf(topic, own), ...shown];
}
