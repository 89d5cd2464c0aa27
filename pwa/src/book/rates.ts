/**
 * Fertility and hatch rates of lots and settings, with what they rest on. Mirrors server/broodline/reports/rates.py.
 *
 * A lot whose counts do not fit (a stage below zero, more hatched than set) keeps its k and n, but gets no rate and is
 * left out of sums over settings.
 */
import { type Rate, rateOf } from "../trade/proportions.ts";
import {
  areAmong,
  type Beside,
  countAmong,
  countBeside,
  countLot,
  type EggCounts,
  isJudged,
} from "./egg-counts.ts";
import { type Alive, aliveAtSevenDays } from "./first-week.ts";
import { OPENED_STAGES } from "./stages.ts";
import { inStage, type Lot, runs, type Setting, type Stages } from "./standing.ts";
import { movesOf, tiedGroups } from "./tied.ts";

type Basis = NonNullable<Rate["basis"]>;

const DEATHS = {
  early: ["blood_ring", "dead_early"],
  mid: ["dead_mid"],
  late: ["dead_late"],
  internal_pip: ["dead_internal_pip"],
  external_pip: ["dead_external_pip"],
  unopened: ["quitter", "unhatched"],
} as const;

export type Deaths = Readonly<Record<keyof typeof DEATHS, number>>;

/** What became of the eggs of a lot or a setting. deaths: how many in each class. sound: the counts fit. */
export interface Outcome {
  readonly fertility: Rate;
  readonly hatchOfSet: Rate;
  readonly hatchOfFertile: Rate;
  readonly alive7d: Rate;
  readonly deaths: Deaths;
  readonly sound: boolean;
}

/** The rates of one lot. Only the chicks' first seven days ask what time it is. */
export function lotOutcome(lot: Lot, setting: Setting, nowMs: number): Outcome {
  return outcomeOf({
    counts: countLot(lot),
    alive: aliveAtSevenDays(lot.moves, nowMs),
    stages: lot.stages,
    basis: isJudged(lot) ? basisOf(lot.stages) : null,
    beside: countBeside(setting.among.filter((move) => move.among.includes(lot.id))),
    soFar: runs(setting),
  });
}

/** The rates of a whole setting: its lots added up, and what was moved among several of them. */
export function settingOutcome(setting: Setting, lots: readonly Lot[], nowMs: number): Outcome {
  const examined = lots.filter((lot) => countLot(lot).examined !== 0);
  const judged = lots.filter(isJudged);
  const waiting = countBeside(setting.among.filter((move) => !areAmong(move, judged)));
  const alive = tiedGroups(lots, setting.among).map((one) => aliveAtSevenDays(movesOf(one), nowMs));
  return outcomeOf({
    counts: [...lots.map(countLot), countAmong(lots, setting.among)].reduce(bothCounts),
    alive: {
      alive: total(alive.map((part) => part.alive)),
      of: total(alive.map((part) => part.of)),
    },
    stages: setting.stages,
    basis: oneBasis(examined.map((lot) => basisOf(lot.stages))),
    beside: { ...waiting, hatchOfSet: 0, alive7d: 0 },
    soFar: runs(setting),
  });
}

/** Outcomes of several lots added up, those whose counts do not fit left out. */
export function addOutcomes(outcomes: readonly Outcome[]): Outcome {
  const kept = outcomes.filter((outcome) => outcome.sound);
  return {
    fertility: sumOf(kept.map((outcome) => outcome.fertility)),
    hatchOfSet: sumOf(kept.map((outcome) => outcome.hatchOfSet)),
    hatchOfFertile: sumOf(kept.map((outcome) => outcome.hatchOfFertile)),
    alive7d: sumOf(kept.map((outcome) => outcome.alive7d)),
    deaths: deathsBy((name) => total(kept.map((outcome) => outcome.deaths[name]))),
    sound: true,
  };
}

/** Rates added up, k to k and n to n. Those without a rate (nothing examined, counts that do not fit) stay out. */
export function sumOf(rates: readonly Rate[]): Rate {
  const kept = rates.filter((rate) => rate.rate !== null);
  const words = {
    basis: oneBasis(kept.flatMap((rate) => rate.basis ?? [])),
    open: total(kept.map((rate) => rate.open ?? 0)),
    soFar: kept.some((rate) => rate.so_far),
  };
  return rateOf(total(kept.map((rate) => rate.k)), total(kept.map((rate) => rate.n)), words);
}

/** "opened" where eggs were opened and no clear waits for it, else "candled". */
export function basisOf(stages: Stages): Basis {
  const isOpened = OPENED_STAGES.some((stage) => inStage({ stages }, stage) > 0);
  return isOpened && inStage({ stages }, "clear") <= 0 ? "opened" : "candled";
}

function oneBasis(bases: readonly Basis[]): Basis | null {
  const named = new Set(bases);
  return named.size > 1 ? "mixed" : (bases[0] ?? null);
}

interface Parts {
  readonly counts: EggCounts;
  readonly alive: Alive;
  readonly stages: Stages;
  readonly basis: Basis | null;
  readonly beside: Beside;
  readonly soFar: boolean;
}

function outcomeOf({ counts, alive, stages, basis, beside, soFar }: Parts): Outcome {
  const isWhole = [...stages.values()].every((n) => n >= 0);
  const on = counts.examined === 0 ? null : basis;
  const rate = (k: number, n: number, open: number, words: Basis | null = null) =>
    rateOf(k, n, { sound: isWhole, basis: n === 0 ? null : words, open, soFar });
  const rates = {
    fertility: rate(counts.fertile, counts.examined, beside.fertility, on),
    hatchOfSet: rate(counts.hatched, counts.eggs, beside.hatchOfSet),
    hatchOfFertile: rate(counts.hatchedOfFertile, counts.fertile, beside.hatchOfFertile, on),
    alive7d: rate(alive.alive, alive.of, beside.alive7d),
  };
  const isFitting = Object.values(rates).every((one) => one.rate !== null || (one.k === 0 && one.n === 0));
  const deaths = deathsBy((name) => total(DEATHS[name].map((stage) => inStage({ stages }, stage))));
  return { ...rates, deaths, sound: isWhole && isFitting };
}

function deathsBy(count: (name: keyof typeof DEATHS) => number): Deaths {
  return {
    early: count("early"),
    mid: count("mid"),
    late: count("late"),
    internal_pip: count("internal_pip"),
    external_pip: count("external_pip"),
    unopened: count("unopened"),
  };
}

function bothCounts(a: EggCounts, b: EggCounts): EggCounts {
  return {
    eggs: a.eggs + b.eggs,
    hatched: a.hatched + b.hatched,
    examined: a.examined + b.examined,
    fertile: a.fertile + b.fertile,
    hatchedOfFertile: a.hatchedOfFertile + b.hatchedOfFertile,
  };
}

function total(parts: readonly number[]): number {
  return parts.reduce((sum, n) => sum + n, 0);
}
