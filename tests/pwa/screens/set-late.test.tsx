// @vitest-environment happy-dom
// A setting entered late at the screen: what is said and unsaid again is saved as it stands at the end.
import { afterAll, expect, it } from "vitest";
import { SetScreen } from "../../../pwa/src/screens/set.tsx";
import { standing } from "../../../pwa/src/state/standing.ts";
import { localDate } from "../../../pwa/src/trade/calendar.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, stages, tap } from "./holding.ts";

const DAY_MS = 86_400_000;

afterAll(killApp);

const page = () => document.body.textContent ?? "";

async function type(selector: string, value: string) {
  const field = document.querySelector<HTMLInputElement>(selector);
  if (!field) throw new Error(`there is no ${selector}`);
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await settle();
}

async function answer(question: string, text: string) {
  const group = document.querySelector(`[role="radiogroup"][aria-label="${question}"]`);
  const found = [...(group?.querySelectorAll("button") ?? [])].find((one) => one.textContent === text);
  if (!found) throw new Error(`there is no ${text} to ${question}`);
  found.click();
  await settle();
}

it("candled: yes, five clear, then not yet, then lockdown: every egg is in the hatcher and none is on a pile", async () => {
  const { setting: before, place } = await holdingAt(30);
  show(<SetScreen place={place} species="chicken" plan={null} />);
  await settle();
  await tap("A date");
  await type('.when input[type="date"]', localDate(NOW_MS - 19 * DAY_MS, "Europe/Dublin"));
  await answer("Held to the light?", "Yes");
  await type('input[aria-label="Clear, Rowan"]', "5");
  expect(page()).toContain("The other 7 were live.");
  await answer("Held to the light?", "Not yet");
  await answer("Lockdown done?", "Yes");
  await tap("Start with 12 eggs");
  const setting = [...standing.value.settings.values()].find((one) => one.id !== before);
  expect(stages(setting?.lots[0] ?? "")).toEqual({ locked: 12 });
  expect(standing.value.problems).toEqual([]);
});
