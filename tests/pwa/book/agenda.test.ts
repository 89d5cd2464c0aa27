import { describe, expect, it } from "vitest";
import { due } from "../../../pwa/src/book/agenda.ts";
import { planFor } from "../../../pwa/src/book/chores-plans.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf, idOf, written } from "./entries-of.ts";

interface AgendaVectors {
  plans: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
  said: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
  cases: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
}

describe("what is due is what the server says", () => {
  const { cases } = readVectors("agenda") as AgendaVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const found = due(fold(entriesOf(asked.entries)), new Date(asked.now));
    // The vectors bind what there is to do and when; why, and in which words, is in the shared table.
    const bound = found.tasks.map(({ due, at, place, setting, task, n, overdue, lot, day }) => {
      return { due, at, place, setting, task, n, overdue, lot, day };
    });
    expect(bound).toEqual(out);
  });

  it.each(cases)("$name: said in words, with a source", ({ in: asked }) => {
    const standing = fold(entriesOf(asked.entries));
    for (const task of due(standing, new Date(asked.now)).tasks) {
      if (task.n !== null) expect(task.words).toContain(String(task.n));
      expect(task.words).not.toContain("null");
      if (task.place) expect(task.words).toContain(standing.places.get(task.place)?.name);
      expect(task.words).not.toMatch(/[{}]/);
      expect(task.source.length).toBeGreaterThan(8);
    }
  });
});

describe("candling is explained by the shells as the server explains it", () => {
  const { said } = readVectors("agenda") as AgendaVectors;

  it.each(said)("$name", ({ in: asked, out }) => {
    const found = due(fold(entriesOf(asked.entries)), new Date(asked.now));
    expect(found.tasks.map(({ task, day, words, why }) => [task, day, words, why])).toEqual(out);
  });
});

it("says the keeper's own word for a family", () => {
  const at = Date.UTC(2026, 2, 1, 8);
  const keeper = {
    holding: "Gorse Bank",
    zone: "UTC",
    temperature: "C",
    mass: "g",
    words: { family: "line" },
  };
  const set_at = new Date(at).toISOString();
  const lots = [{ lot: "01950000-0000-7000-9000-000000000001", family: idOf(3), n: 12 }];
  const standing = fold(
    entriesOf([
      written(1, "keeper", keeper, at),
      written(2, "place", { name: "Loft box", role: "incubator" }, at),
      written(3, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }, at),
      written(4, "set", { place: idOf(2), species: "chicken", set_at, lots }, at),
    ]),
  );
  const told = due(standing, new Date(at + 17 * 86_400_000)).tasks.map((task) => task.words);
  expect(told.find((words) => words.startsWith("Lock down"))).toContain("keep the lines of 12 eggs apart");
});

it("says one egg where there is one", () => {
  const at = Date.UTC(2026, 2, 1, 8);
  const keeper = { holding: "Gorse Bank", zone: "UTC", temperature: "C", mass: "g" };
  const lots = [{ lot: "01950000-0000-7000-9000-000000000001", family: idOf(3), n: 1 }];
  const standing = fold(
    entriesOf([
      written(1, "keeper", keeper, at),
      written(2, "place", { name: "Loft box", role: "incubator" }, at),
      written(3, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }, at),
      written(4, "set", { place: idOf(2), species: "chicken", set_at: new Date(at).toISOString(), lots }, at),
    ]),
  );
  const told = [7, 21].flatMap((day) => due(standing, new Date(at + day * 86_400_000)).tasks);
  const words = told.map((task) => task.words);
  expect(words).toContain("Candle the 1 egg in Loft box.");
  expect(words).toContain("Look for chicks in Loft box: 1 egg is due.");
});

describe("planned settings are asked for as the server asks", () => {
  const { plans } = readVectors("agenda") as AgendaVectors;

  it.each(plans)("$name", ({ in: asked, out }) => {
    const found = due(fold(entriesOf(asked.entries)), new Date(asked.now));
    const planned = found.tasks.filter((one) => one.task === "set");
    expect(
      planned.map(({ due, at, place, plan, overdue, words }) => ({ due, at, place, plan, overdue, words })),
    ).toEqual(out);
  });
});

describe("eggs that are being set", () => {
  const plan = { id: "a", species: "duck", setOn: "2026-03-07", place: "loft" };
  const plans = [plan, { ...plan, id: "b", place: "" }, { ...plan, id: "c", setOn: "2026-03-09" }];
  const found = (species: string, place: string, on: string) => planFor(plans, species, place, on)?.id;

  it("may be those of a plan for their species within a week, in its place first, then on the nearest day", () => {
    expect(found("duck", "loft", "2026-03-07")).toBe("a");
    expect(found("duck", "loft", "2026-03-10")).toBe("c");
    expect(found("duck", "shed", "2026-03-14")).toBe("b");
    expect(found("duck", "loft", "2026-03-17")).toBeUndefined();
    expect(found("duck", "loft", "2026-02-27")).toBeUndefined();
    expect(found("chicken", "loft", "2026-03-07")).toBeUndefined();
  });
});
