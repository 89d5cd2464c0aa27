import { describe, expect, it } from "vitest";
import { due } from "../../../pwa/src/book/agenda.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface AgendaVectors {
  cases: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
}

describe("what is due is what the server says", () => {
  const { cases } = readVectors("agenda") as AgendaVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const found = due(fold(entriesOf(asked.entries)), new Date(asked.now));
    // The vectors bind what there is to do and when; why, and in which words, is in the shared table.
    const bound = found.tasks.map(({ due, at, place, setting, task, n, overdue, lot }) => {
      return { due, at, place, setting, task, n, overdue, lot };
    });
    expect(bound).toEqual(out);
  });

  it.each(cases)("$name: said in words, with a source", ({ in: asked }) => {
    const standing = fold(entriesOf(asked.entries));
    for (const task of due(standing, new Date(asked.now)).tasks) {
      expect(task.words).toContain(String(task.n));
      expect(task.words).toContain(standing.places.get(task.place)?.name);
      expect(task.words).not.toMatch(/[{}]/);
      expect(task.source.length).toBeGreaterThan(8);
    }
  });
});
