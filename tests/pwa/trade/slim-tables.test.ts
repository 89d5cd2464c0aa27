// The phone's slim form of the tables holds the same figures as the tables themselves.
import { readFileSync } from "node:fs";
import slimAgenda from "@tables/agenda.json";
import slimBreakout from "@tables/breakout.json";
import slimGrowth from "@tables/growth.json";
import slimHatch from "@tables/hatch.json";
import slimProblems from "@tables/problems.json";
import slimSources from "@tables/sources.json";
import slimSpecies from "@tables/species.json";
import slimStages from "@tables/stages.json";
import slimStorage from "@tables/storage.json";
import { expect, it } from "vitest";

const whole = (name: string) =>
  JSON.parse(
    readFileSync(new URL(`../../../server/broodline/trade/tables/${name}.json`, import.meta.url), "utf-8"),
  );

it.each([
  ["agenda", slimAgenda],
  ["breakout", slimBreakout],
  ["growth", slimGrowth],
  ["hatch", slimHatch],
  ["problems", slimProblems],
  ["sources", slimSources],
  ["species", slimSpecies],
  ["stages", slimStages],
  ["storage", slimStorage],
])("%s: nothing is changed and nothing added", (name, slim) => {
  expect(whole(name)).toMatchObject(slim);
  expect(JSON.stringify(slim).length).toBeLessThan(JSON.stringify(whole(name)).length);
});

it("leaves out why a figure was chosen, and keeps why a task is done", () => {
  expect(whole("storage").most_days.why).toBeTruthy();
  expect(slimStorage.most_days).toEqual({ ...whole("storage").most_days, why: undefined });
  expect("about" in slimStorage).toBe(false);
  expect(slimAgenda.tasks.candle.why).toBe(whole("agenda").tasks.candle.why);
});

it("keeps every species and the title of every source that a task names", () => {
  expect(Object.keys(slimSpecies.species)).toEqual(Object.keys(whole("species").species));
  const titles = slimSources.sources as Record<string, { title: string }>;
  for (const { source } of Object.values(slimAgenda.tasks)) expect(titles[source]?.title).toBeTruthy();
});
