/**
 * The phone's book on standard input and output, for comparing it with the server's: one JSON question a line, one
 * line of canonical text in answer. tests/server/book/test_mirror.py asks.
 */
import { createInterface } from "node:readline";
import { due } from "../../../pwa/src/book/agenda.ts";
import { readBody } from "../../../pwa/src/book/body-check.ts";
import { eggStore } from "../../../pwa/src/book/egg-store.ts";
import { parseEntry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { hatchedMs } from "../../../pwa/src/book/hatch-day.ts";
import { keptHere } from "../../../pwa/src/book/kept-here.ts";
import { isKind } from "../../../pwa/src/book/kinds.ts";
import { heldMs, momentMs } from "../../../pwa/src/book/moments.ts";
import { addOutcomes, lotOutcome, type Outcome, settingOutcome } from "../../../pwa/src/book/rates.ts";
import { airOf } from "../../../pwa/src/book/readings.ts";
import { type Setting, type Standing, standingJson } from "../../../pwa/src/book/standing.ts";
import { lossOutlook, weighingsOf } from "../../../pwa/src/book/weighings.ts";
import { broods, staysOf } from "../../../pwa/src/book/whereabouts.ts";
import { canonical, EnvelopeFault } from "../../../pwa/src/book/wire.ts";
import { localDate } from "../../../pwa/src/trade/calendar.ts";
import { entriesOf } from "./entries-of.ts";
import { flockJson } from "./flock-json.ts";
import { storeJson } from "./store-json.ts";

type Question =
  | { ask: "fold" | "flock"; entries: unknown[] }
  | { ask: "rates"; entries: unknown[]; moment: string }
  | { ask: "gauges"; entries: unknown[]; moment: string }
  | { ask: "due" | "store"; entries: unknown[]; moments: string[] }
  | { ask: "kept"; entries: unknown[]; days: string[] }
  | { ask: "envelope" | "canonical"; value: unknown }
  | { ask: "body"; kind: string; body: Record<string, unknown> }
  | { ask: "moment"; text: string };

function answer(question: Question): unknown {
  switch (question.ask) {
    case "fold":
      return standingJson(fold(entriesOf(question.entries)));
    case "flock":
      return flockJson(fold(entriesOf(question.entries)));
    case "rates":
      return ratesOf(fold(entriesOf(question.entries)), Date.parse(question.moment));
    case "gauges":
      return gaugesOf(fold(entriesOf(question.entries)), Date.parse(question.moment));
    case "due": {
      const standing = fold(entriesOf(question.entries));
      return question.moments.map((now) => due(standing, new Date(now)));
    }
    case "store": {
      const standing = fold(entriesOf(question.entries));
      return question.moments.map((now) => storeJson(eggStore(standing, Date.parse(now))));
    }
    case "kept": {
      const standing = fold(entriesOf(question.entries));
      const dayOf = (atMs: number) => localDate(heldMs(atMs), standing.keeper.zone);
      const stays = [...standing.lots.values()].map((lot) =>
        staysOf(standing, lot).map(({ place, sinceMs, untilMs }) => [place, sinceMs, untilMs]),
      );
      const young = broods(standing).map(({ lot, among, place, stages }) => {
        const known = standing.lots.get(lot);
        const hatched = known ? hatchedMs(standing, known, among) : null;
        return [lot, among, place, Object.fromEntries(stages), hatched];
      });
      return { kept: question.days.map((day) => keptHere(standing, day, dayOf)), stays, young };
    }
    case "envelope": {
      const found = parseEntry(question.value);
      return found instanceof EnvelopeFault ? "refused" : found;
    }
    case "canonical":
      return question.value;
    case "body":
      return isKind(question.kind) ? readBody(question.kind, question.body) : null;
    case "moment":
      return momentMs(question.text);
  }
}

/** The rates of every setting, of its lots, and of all lots added up. */
function ratesOf(standing: Standing, nowMs: number): unknown {
  const lots = (setting: Setting) => setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
  const settings = [...standing.settings.values()];
  const outcomes = settings.flatMap((setting) => lots(setting).map((lot) => lotOutcome(lot, setting, nowMs)));
  return {
    settings: settings.map((setting) => told(settingOutcome(setting, lots(setting), nowMs))),
    lots: outcomes.map(told),
    all: told(addOutcomes(outcomes)),
  };
}

/** What thermometers and scales said of every setting. */
function gaugesOf(standing: Standing, nowMs: number): unknown {
  return [...standing.settings.values()].map((setting) => {
    const lots = setting.lots.flatMap((name) => standing.lots.get(name) ?? []);
    const air = airOf(standing, setting, lots);
    const weighed = weighingsOf(standing, setting);
    const { projection, advice, unchecked } = lossOutlook(setting, weighed, air, nowMs);
    return {
      readings: air.readings.map((one) => [
        one.atMs,
        one.phase,
        one.dryC,
        one.offC,
        one.humidityPct,
        one.corrected,
      ]),
      gauges: air.gauges.map((one) => [one.place, one.name, one.checkedMs, one.off]),
      points: weighed.points.map((one) => [one.day, one.lossPct, one.lot, one.sinceDay]),
      error: weighed.errorPct,
      faults: weighed.faults.map((one) => [one.entry, one.code]),
      projection: projection && [projection.lowPct, projection.middlePct, projection.highPct],
      advice: advice && `${advice.words}${unchecked ? " The hygrometer was not checked this season." : ""}`,
    };
  });
}

function told({ fertility, hatchOfSet, hatchOfFertile, alive7d, deaths, sound }: Outcome): unknown {
  return {
    fertility,
    hatch_of_set: hatchOfSet,
    hatch_of_fertile: hatchOfFertile,
    alive_7d: alive7d,
    deaths,
    sound,
  };
}

function line(text: string): string {
  try {
    const question: Question = JSON.parse(text);
    // A rate or a distance may be smaller than any number that may stand in an entry.
    return question.ask === "rates" || question.ask === "gauges"
      ? JSON.stringify(answer(question))
      : canonical(answer(question));
  } catch (fault) {
    return fault instanceof EnvelopeFault ? '"refused"' : `thrown: ${String(fault)}`;
  }
}

for await (const text of createInterface({ input: process.stdin })) {
  process.stdout.write(`${line(text)}\n`);
}
