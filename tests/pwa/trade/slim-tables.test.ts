// The phone's slim form of the tables holds the same figures as the tables themselves.
import { readFileSync } from "node:fs";
import slimAgenda from "@tables/agenda.json";
import slimAlarms from "@tables/alarms.json";
import slimBreakout from "@tables/breakout.json";
import slimGrowth from "@tables/growth.json";
import slimGuidance from "@tables/guidance.json";
import slimHatch from "@tables/hatch.json";
import slimMarks from "@tables/marks.json";
import slimProblems from "@tables/problems.json";
import slimSetpoints from "@tables/setpoints.json";
import slimSources from "@tables/sources.json";
import slimSpecies from "@tables/species.json";
import slimStages from "@tables/stages.json";
import slimStorage from "@tables/storage.json";
import slimWeightLoss from "@tables/weight_loss.json";
import { expect, it } from "vitest";

const whole = (name: string) =>
  JSON.parse(
    readFileSync(new URL(`../../../server/broodline/trade/tables/${name}.json`, import.meta.url), "utf-8"),
  );

it.each([
  ["agenda", slimAgenda],
  ["alarms", slimAlarms],
  ["breakout", slimBreakout],
  ["growth", slimGrowth],
  ["hatch", slimHatch],
  ["guidance", slimGuidance],
  ["marks", slimMarks],
  ["problems", slimProblems],
  ["sources", slimSources],
  ["species", slimSpecies],
  ["stages", slimStages],
  ["storage", slimStorage],
  ["weight_loss", slimWeightLoss],
])("%s: nothing is changed and nothing added", (name, slim) => {
  expect(whole(name)).toMatchObject(slim);
  expect(JSON.stringify(slim).length).toBeLessThan(JSON.stringify(whole(name)).length);
});

it("leaves out why a figure was chosen, and keeps why a task is done", () => {
  expect(whole("storage").most_days.why).toBeTruthy();
  expect(slimStorage.most_days).toEqual({
    ...whole("storage").most_days,
    why: undefined,
    unit: undefined,
  });
  expect("about" in slimStorage).toBe(false);
  expect(slimAgenda.tasks.candle.why).toBe(whole("agenda").tasks.candle.why);
});

it("keeps every species and the title of every source that a task names", () => {
  expect(Object.keys(slimSpecies.species)).toEqual(Object.keys(whole("species").species));
  const titles = slimSources.sources as Record<string, { title: string }>;
  for (const { source } of Object.values(slimAgenda.tasks)) expect(titles[source]?.title).toBeTruthy();
});

it("keeps the title of every source that a figure on the phone, or a screen by its name, tells of, and no others", () => {
  const titles = Object.keys(slimSources.sources);
  const tables = [slimAgenda, slimAlarms, slimBreakout, slimGrowth, slimGuidance, slimHatch, slimMarks];
  const read = JSON.stringify([
    tables,
    slimProblems,
    slimSetpoints,
    slimSpecies,
    slimStages,
    slimStorage,
    slimWeightLoss,
  ]);
  const told = [...read.matchAll(/"source":"([^"]+)"/g)].map(([, key]) => key);
  expect(told.length).toBeGreaterThan(100);
  expect(told.filter((key) => !titles.includes(key ?? ""))).toEqual([]);
  expect(titles).toContain("FAO04"); // set-clashes names it; no figure of the phone's does
  expect(titles.length).toBeLessThan(Object.keys(whole("sources").sources).length - 20);
});

it("keeps of each set point the chosen figure whole, and of bulbs and humidities all, each with its source", () => {
  type Rows = Record<string, Record<string, { value: unknown; source: string }[]>>;
  const species: Rows = whole("setpoints").species;
  const told = (list: Rows[string][string]) => list?.map(({ value, source }) => [value, source]);
  for (const [name, row] of Object.entries(slimSetpoints.species as unknown as Rows)) {
    expect(Object.keys(row)).toEqual(Object.keys(species[name] ?? {}));
    for (const [key, list] of Object.entries(row)) {
      const all = species[name]?.[key] ?? [];
      expect(all[0]).toMatchObject(list[0] ?? {});
      expect(told(list)).toEqual(told(key.startsWith("vents") ? all.slice(0, 1) : all));
    }
  }
});
