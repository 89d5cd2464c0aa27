// Zone, height, units, season and the keeper's own words: asked at the start behind one line, changed any time.

import { holding as words } from "../app/words/holding.ts";
import type { Keeper } from "../book/bodies.generated.ts";
import { FAMILY_WORDS, HATCH_WORDS } from "../book/own-words.ts";
import { FEET_IN_A_METRE } from "./measures.ts";
import { Choice } from "./parts/choice.tsx";
import { readCount, readDecimal } from "./parts/read-number.ts";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

/** What is typed, until it is saved. altitude: in the unit of height that belongs to the units chosen. */
export interface KeeperDraft {
  readonly zone: string;
  readonly altitude: string;
  readonly temperature: Keeper["temperature"];
  readonly mass: Keeper["mass"];
  readonly seasonStarts: number;
  readonly family: (typeof FAMILY_WORDS)[number];
  readonly hatch: (typeof HATCH_WORDS)[number];
}

const TEMPERATURES = ["C", "F"] as const;
const MASSES = ["g", "oz"] as const;
const MONTHS = Array.from({ length: 12 }, (_, i) => i + 1);

const monthName = (month: number) =>
  new Intl.DateTimeFormat(undefined, { month: "long", timeZone: "UTC" }).format(
    Date.UTC(2026, month - 1, 15),
  );

export function draftOf(keeper: Keeper): KeeperDraft {
  const { altitude_m, words: own } = keeper;
  const inFeet = keeper.temperature === "F";
  const height = altitude_m ?? null;
  return {
    zone: keeper.zone,
    altitude: height === null ? "" : String(Math.round(inFeet ? height * FEET_IN_A_METRE : height)),
    temperature: keeper.temperature,
    mass: keeper.mass,
    seasonStarts: keeper.season_starts ?? 1,
    family: FAMILY_WORDS.find((word) => word === own?.family) ?? "family",
    hatch: HATCH_WORDS.find((word) => word === own?.hatch) ?? "setting",
  };
}

/** The fields of a keeper entry that a draft tells; null where something in it cannot be. */
export function toldBy(draft: KeeperDraft): Omit<Keeper, "holding" | "region"> | null {
  const altitude_m = heightOf(draft);
  if (altitude_m === undefined || !isZone(draft.zone)) return null;
  return {
    zone: draft.zone.trim(),
    altitude_m,
    temperature: draft.temperature,
    mass: draft.mass,
    season_starts: draft.seasonStarts,
    words: { family: draft.family, hatch: draft.hatch },
  };
}

/** Metres; null where none is told, undefined where what stands there is no height. */
function heightOf({ altitude, temperature }: KeeperDraft): number | null | undefined {
  if (!altitude.trim()) return null;
  const inFeet = temperature === "F";
  const most = inFeet ? 20_000 : 6000;
  // "5,280" is a height in whole feet, not one of five; readDecimal alone would take the comma for a point.
  const whole = readCount(altitude, 0, most);
  const read = whole.ok ? whole : readDecimal(altitude, inFeet ? -1300 : -400, most);
  if (!read.ok) return undefined;
  return inFeet ? Math.round((read.value / FEET_IN_A_METRE) * 10) / 10 : read.value;
}

/** The same height in the unit that goes with the temperature's; what cannot be read stays as it is. */
export function heightIn(temperature: Keeper["temperature"], draft: KeeperDraft): string {
  const height = heightOf(draft);
  if (temperature === draft.temperature || typeof height !== "number") return draft.altitude;
  return String(Math.round(temperature === "F" ? height * FEET_IN_A_METRE : height));
}

function isZone(zone: string): boolean {
  try {
    return /^[A-Za-z]/.test(zone.trim()) && Boolean(new Intl.DateTimeFormat("en", { timeZone: zone.trim() }));
  } catch {
    return false;
  }
}

interface KeeperFieldsProps {
  readonly draft: KeeperDraft;
  readonly onChange: (draft: KeeperDraft) => void;
}

export function KeeperFields({ draft, onChange }: KeeperFieldsProps) {
  const change = (part: Partial<KeeperDraft>) => onChange({ ...draft, ...part });
  const inFeet = draft.temperature === "F";
  const options = <T extends string>(values: readonly T[], texts: Readonly<Record<T, string>>) =>
    values.map((value) => ({ value, text: texts[value] }));
  const asIs = <T extends string>(values: readonly T[]) => values.map((value) => ({ value, text: value }));
  return (
    <div>
      <TextField
        label={words.zone}
        value={draft.zone}
        onType={(zone) => change({ zone })}
        hint={words.zoneHint}
        fault={isZone(draft.zone) ? null : words.zoneFault}
        capitals="words"
      />
      <TextField
        label={`${words.altitude}, ${inFeet ? words.feet : words.metres}`}
        value={draft.altitude}
        onType={(altitude) => change({ altitude })}
        inputMode="decimal"
        hint={words.altitudeHint}
        fault={heightOf(draft) === undefined ? (inFeet ? words.altitudeFaultFt : words.altitudeFault) : null}
        most={8}
      />
      <Choice
        label={words.temperature}
        value={draft.temperature}
        options={options(TEMPERATURES, words.temperatures)}
        onChoose={(temperature) => change({ temperature, altitude: heightIn(temperature, draft) })}
      />
      <Choice
        label={words.mass}
        value={draft.mass}
        options={options(MASSES, words.masses)}
        onChoose={(mass) => change({ mass })}
      />
      <SelectField
        label={words.season}
        value={String(draft.seasonStarts)}
        options={MONTHS.map((month) => ({ value: String(month), text: monthName(month) }))}
        onChoose={(month) => change({ seasonStarts: Number(month) })}
        hint={words.seasonHint}
      />
      <Choice
        label={words.familyWord}
        value={draft.family}
        options={asIs(FAMILY_WORDS)}
        onChoose={(family) => change({ family })}
      />
      <Choice
        label={words.hatchWord}
        value={draft.hatch}
        options={asIs(HATCH_WORDS)}
        onChoose={(hatch) => change({ hatch })}
      />
    </div>
  );
}
