// @vitest-environment happy-dom
import { afterAll, expect, it } from "vitest";
import { BookScreen } from "../../../pwa/src/screens/book.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show, stages, tap } from "./holding.ts";

afterAll(killApp);

const acts = () => [...document.querySelectorAll(".opened button")].map((one) => one.textContent);

async function opened(text: string) {
  show(<BookScreen />);
  await settle();
  const lines = [...document.querySelectorAll<HTMLElement>("li.entry > button")];
  const line = lines.find((one) => one.textContent?.includes(text));
  if (!line) throw new Error(`no line of ${text}: ${lines.map((one) => one.textContent).join("; ")}`);
  line.click();
  await settle();
}

it("puts the count of one batch right", async () => {
  const { first } = await holdingAt(22);
  await record("moved", { moves: [{ lot: first, from: "set", to: "hatched", n: 5 }], why: "hatch" });
  await opened("Rowan: 5");
  await tap("Change the count");
  await tap("One fewer");
  await tap("That is right");
  expect(stages(first)).toEqual({ set: 20, hatched: 4 });
});

it("offers no one number for an entry that moved chicks of two batches, be they as many", async () => {
  const { first, second } = await holdingAt(22);
  const moves = [first, second].map((lot) => ({ lot, from: "set", to: "hatched", n: 5 }));
  await record("moved", { moves, why: "hatch" });
  await opened("Rowan: 5");
  expect(acts().length).toBeGreaterThan(0);
  expect(acts()).not.toContain("Change the count");
});
