// @vitest-environment happy-dom
import { afterAll, afterEach, expect, it, vi } from "vitest";
import { CameScreen } from "../../../pwa/src/screens/came.tsx";
import { EggsScreen } from "../../../pwa/src/screens/eggs.tsx";
import { OrdersScreen } from "../../../pwa/src/screens/orders.tsx";
import { PensScreen } from "../../../pwa/src/screens/pens.tsx";
import { TreatmentsScreen } from "../../../pwa/src/screens/treatments.tsx";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp } from "../state/surroundings.ts";
import { buttonNamed, holdingAt, settle, show, tap } from "./holding.ts";

afterAll(killApp);
afterEach(() => void vi.restoreAllMocks());

/** The clock of Dublin, in winter that of Greenwich, stands there; the app was looked at again. */
async function at(day: number, time: string) {
  const now_ms = Date.parse(`2026-03-${String(day).padStart(2, "0")}T${time}:00Z`);
  vi.spyOn(openDesk(), "now_ms").mockReturnValue(now_ms);
  document.dispatchEvent(new Event("visibilitychange"));
  await settle();
}

const days = () => [...document.querySelectorAll<HTMLInputElement>("input[type=date]")];
const shown = () =>
  days()
    .filter(({ value }) => value !== "")
    .map(({ value, max }) => [value, max]);

async function type(field: HTMLInputElement | undefined, text: string) {
  if (!field) throw new Error("no such field");
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await settle();
}

it.each([
  ["what came", <CameScreen key="1" />, null, 1],
  ["an order", <OrdersScreen key="2" />, "Write down an order", 1],
  ["a treatment", <TreatmentsScreen key="3" bird={null} />, "Write down a treatment", 1],
  ["a pen", <PensScreen key="4" family={null} birds={null} />, "Put a pen together", 1],
])("offers the real today in a form for %s that was open at midnight", async (_, screen, opens, n) => {
  await holdingAt(5);
  await at(8, "23:55");
  show(screen);
  await settle();
  if (opens && [...document.querySelectorAll("button")].some((one) => one.textContent?.startsWith(opens)))
    await tap(opens);
  expect(shown().map(([value]) => value)).toEqual(Array(n).fill("2026-03-08"));
  await at(9, "00:05");
  expect(shown().map(([value]) => value)).toEqual(Array(n).fill("2026-03-09"));
  for (const [, max] of shown()) expect(["", "2026-03-09"]).toContain(max);
  await type(days()[0], "2026-03-07");
  await at(10, "00:01");
  expect(shown()[0]?.[0], "what was typed stays").toBe("2026-03-07");
});

it("writes eggs gathered after midnight on the day that has come", async () => {
  await holdingAt(5);
  await at(8, "23:55");
  show(<EggsScreen />);
  await settle();
  await tap("Eggs gathered");
  buttonNamed("One more").click();
  await at(9, "00:05");
  await tap("Save 1 egg");
  expect(standing.value.heads.gathered?.map(({ body }) => body.on)).toEqual(["2026-03-09"]);
});
