import { describe, expect, it } from "vitest";
import {
  advise,
  humidityAllowed,
  humidityFor,
  lossPct,
  lossTarget,
  type Point,
  project,
  scaleErrorPct,
  targetMassG,
} from "../../../pwa/src/trade/weight-loss.ts";
import { readVectors } from "../vectors.ts";

interface Case<In, Out> {
  name: string;
  in: In;
  out: Out;
  within: number;
}

interface LossVectors {
  lines: Case<{ mass_set_g: number; target_pct: number; day: number; by_day: number }, number>[];
  losses: Case<[number, number], number>[];
  impossible: Case<[number, number], never>[];
  humidity: Case<{ humidity: number; needed: number; seen: number }, number>[];
  scale: Case<[number, number, number], number>[];
  targets: Case<
    { species: string; day: number },
    { target_pct: number; low_pct: number; high_pct: number } | null
  >[];
  allowed: Case<string, [number, number]>[];
  hatcher_allowed: Case<string, [number, number]>[];
  advice: Case<
    {
      species: string;
      points: Point[];
      error_pct: number;
      today: number;
      lockdown: number;
      humidity: number | null;
    },
    {
      projection: { low_pct: number; middle_pct: number; high_pct: number } | null;
      advice: { code: string; words: string; humidity_pct: number | null } | null;
    }
  >[];
}

const vectors = readVectors("weight_loss") as LossVectors;

function expectNear(found: number | undefined, wanted: number, within = 1e-9) {
  expect(Math.abs((found ?? Number.NaN) - wanted)).toBeLessThanOrEqual(within);
}

describe("water loss", () => {
  it.each(vectors.lines)("$name", ({ in: { mass_set_g, target_pct, day, by_day }, out, within }) => {
    expectNear(targetMassG(mass_set_g, target_pct, day, by_day), out, within);
  });

  it.each(vectors.losses)("$name", ({ in: [first, now], out, within }) => {
    expectNear(lossPct(first, now), out, within);
  });

  it.each(vectors.impossible)("$name is refused", ({ in: [first, now] }) => {
    expect(() => lossPct(first, now)).toThrow(/weight/);
  });

  it.each(vectors.scale)("$name", ({ in: [step, mass, n], out }) => {
    expectNear(scaleErrorPct(step, mass, n), out);
  });

  it.each(vectors.targets)("$name", ({ in: { species, day }, out }) => {
    const found = lossTarget(species, day);
    if (out === null) {
      expect(found).toBeUndefined();
      return;
    }
    expectNear(found?.targetPct, out.target_pct);
    expectNear(found?.lowPct, out.low_pct);
    expectNear(found?.highPct, out.high_pct);
  });
});

describe("humidity", () => {
  it.each(vectors.humidity)("$name", ({ in: { humidity, needed, seen }, out, within }) => {
    expectNear(humidityFor(humidity, needed, seen), out, within + 1e-9);
  });

  it("cannot be told where nothing was lost", () => {
    expect(() => humidityFor(55, 0.5, 0)).toThrow(/no loss/);
  });

  it.each(vectors.allowed)("of $name, as the tables allow", ({ in: species, out: [low, high] }) => {
    const [least, most] = humidityAllowed(species);
    expectNear(least, low);
    expectNear(most, high);
  });

  it.each(vectors.hatcher_allowed)("of $name in the hatcher, as the tables allow", ({ in: species, out }) => {
    const [least, most] = humidityAllowed(species, "hatcher");
    expectNear(least, out[0]);
    expectNear(most, out[1]);
  });

  it.each(vectors.advice)("$name", ({ in: asked, out }) => {
    const projection = project(asked.points, asked.error_pct, asked.lockdown);
    if (out.projection === null || projection === undefined) {
      expect(projection ?? null).toBe(out.projection);
      return;
    }
    expectNear(projection.lowPct, out.projection.low_pct);
    expectNear(projection.middlePct, out.projection.middle_pct);
    expectNear(projection.highPct, out.projection.high_pct);
    const { species, today, lockdown, humidity } = asked;
    const [lastDay] = asked.points.at(-1) ?? [0];
    const said = advise({ species, projection, lastDay, today, lockdown, humidity });
    expect(said?.words ?? null).toBe(out.advice?.words ?? null);
    expect(said?.code ?? null).toBe(out.advice?.code ?? null);
    if (typeof out.advice?.humidity_pct === "number")
      expectNear(said?.humidityPct ?? undefined, out.advice.humidity_pct);
    else expect(said?.humidityPct ?? null).toBe(null);
  });
});
