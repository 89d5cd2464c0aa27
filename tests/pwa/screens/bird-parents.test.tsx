// @vitest-environment happy-dom
// A bird's inbreeding never stands alone: how far back its forebears are known stands beside it.
import { afterAll, afterEach, beforeEach, expect, it } from "vitest";
import type { OneBird } from "../../../pwa/src/book/birds.ts";
import { BirdParents } from "../../../pwa/src/screens/bird-parents.tsx";
import { familyTold } from "../../../pwa/src/state/bird-reports.ts";
import { parseKin } from "../../../pwa/src/state/kin-report.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

const BIRD = { id: "b", label: "red 7", body: { sex: "female" } } as OneBird;

async function told(more: Record<string, unknown>): Promise<string> {
  show(<BirdParents bird={BIRD} />);
  await settle();
  const bird = { bird: "b", label: "red 7", sex: "female", parents: [], notes: [], ...more };
  familyTold.value = { kind: "fresh", report: parseKin({ birds: [bird] }) };
  await settle();
  return document.body.textContent ?? "";
}

beforeEach(() => holdingAt(21));
afterEach(() => {
  familyTold.value = { kind: "unpaired" };
});
afterAll(killApp);

it("says how many generations a figure rests on", async () => {
  expect(await told({ F: 0, F_low: 0, F_high: 0, completeness: 1 })).toContain(
    "Inbreeding 0.0 %, with 1.0 generations of forebears known.",
  );
});

it("says unknown where nothing is known, never none", async () => {
  const text = await told({ F: null, F_low: null, F_high: null, completeness: 0 });
  expect(text).toContain("Inbreeding unknown: nothing is written of its forebears.");
  expect(text).not.toMatch(/Inbreeding \d/);
});

it("answers why beside the chances of its parents and beside its inbreeding", async () => {
  const parents = [{ sire: null, dam: null, chance: 1 }];
  const text = await told({ F: 0.125, F_low: 0.1, F_high: 0.2, completeness: 1, parents });
  expect(text).toContain("Why? these chances");
  expect(text).toContain("Why? its inbreeding");
  expect(await told({ F: null, F_low: null, F_high: null, completeness: 0 })).not.toContain("Why?");
});
