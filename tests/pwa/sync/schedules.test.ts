import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { IndexedBook } from "../../../pwa/src/storage/indexed.ts";
import { MemoryBook } from "../../../pwa/src/storage/memory.ts";
import { type Mutants, play, type Step, steps } from "./schedules.ts";

const inMemory = () => new MemoryBook("home");
const SEED = 20_260_308; // printed by fast-check with the shrunk schedule when one fails

describe("three phones and a server, on bad lines, killed and restored", () => {
  it("lose nothing and agree in the end, over 400 schedules", { timeout: 120_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(steps, async (schedule) => {
        expect(await play(schedule, inMemory)).toBeNull();
      }),
      { numRuns: 400, seed: SEED },
    );
  });

  it("do so with IndexedDB too", { timeout: 120_000 }, async () => {
    await fc.assert(
      fc.asyncProperty(steps, async (schedule) => {
        vi.stubGlobal("indexedDB", new IDBFactory());
        expect(await play(schedule, (n) => new IndexedBook(`home-${n}`))).toBeNull();
      }),
      { numRuns: 100, seed: SEED },
    );
  });
});

describe("the schedules find a wrong", () => {
  const wrongs: [string, Mutants][] = [
    ["phone that trusts the answer to a push", { phone: "trusts the answer to a push" }],
    ["phone that keeps the cursor before the rows", { phone: "cursor before rows" }],
    ["phone that keeps a page in part", { phone: "rows without cursor, half" }],
    ["server that takes any cursor", { server: "no history check" }],
    ["server that looks at the position only", { server: "position check only" }],
  ];
  for (const [name, mutants] of wrongs) {
    it(name, { timeout: 120_000 }, async () => {
      expect(await firstFailure(mutants)).not.toBeNull();
    });
  }
});

async function firstFailure(mutants: Mutants): Promise<string | null> {
  for (const schedule of fc.sample(steps, { numRuns: 400, seed: SEED }) as Step[][]) {
    const wrong = await play(schedule, inMemory, mutants).catch(String);
    if (wrong !== null) return wrong;
  }
  return null;
}
