// The server's answer about eggs to set for the birds wished for: by family, by setting, with the chance.
import { type Fields, fields, figure, rows, text, texts } from "./answer-fields.ts";

export interface EggsOption {
  readonly eggs: number;
  readonly chance: number;
}

/** store: what it gives by when; null where nothing was ever gathered. */
export interface EggsTarget {
  readonly family: string;
  readonly name: string;
  readonly eggs: number;
  readonly enough: boolean;
  readonly chance: number;
  readonly options: readonly EggsOption[];
  /** Whose eggs these are, and what inbreeding to expect; empty where no pen stands. */
  readonly parents: string;
  readonly inStore: number;
  readonly store: {
    readonly paceWeek: number;
    readonly enoughOn: string | null;
    readonly by: readonly { readonly on: string; readonly n: number }[];
  } | null;
}

export interface EggsSetting {
  readonly setOn: string;
  readonly lockdownOn: string;
  readonly hatchOn: string;
  readonly place: string | null;
  readonly species: string;
  readonly lots: readonly { readonly family: string; readonly n: number }[];
}

export interface EggsPlan {
  readonly targets: readonly EggsTarget[];
  readonly eggs: number;
  readonly chance: number | null;
  readonly settings: readonly EggsSetting[];
  readonly assumptions: readonly string[];
  readonly computedMs: number;
}

/** Throws TypeError where the answer is not a plan of eggs. */
export function parseEggsPlan(value: unknown): EggsPlan {
  const report = fields(value);
  if (!Array.isArray(report.targets) || !Array.isArray(report.settings))
    throw new TypeError("not a plan of eggs");
  return {
    targets: rows(report.targets).map(target),
    eggs: figure(report.eggs) ?? 0,
    chance: figure(report.chance),
    settings: rows(report.settings).map((row) => ({
      setOn: text(row.set_on),
      lockdownOn: text(row.lockdown_on),
      hatchOn: text(row.hatch_on),
      place: text(row.place) || null,
      species: text(row.species),
      lots: rows(row.lots).map((lot) => ({ family: text(lot.family), n: figure(lot.n) ?? 0 })),
    })),
    assumptions: texts(report.assumptions),
    computedMs: Date.parse(text(report.computed_at)) || 0,
  };
}

function target(row: Fields): EggsTarget {
  const store = fields(row.store);
  return {
    family: text(row.family),
    name: text(row.name),
    eggs: figure(row.eggs) ?? 0,
    enough: row.enough === true,
    chance: figure(row.chance) ?? 0,
    options: rows(row.options).map((one) => ({
      eggs: figure(one.eggs) ?? 0,
      chance: figure(one.chance) ?? 0,
    })),
    parents: text(fields(row.parents).words),
    inStore: figure(row.in_store) ?? 0,
    store:
      row.store === null || row.store === undefined
        ? null
        : {
            paceWeek: figure(store.pace_week) ?? 0,
            enoughOn: text(store.enough_on) || null,
            by: rows(store.by).map((one) => ({ on: text(one.on), n: figure(one.n) ?? 0 })),
          },
  };
}
