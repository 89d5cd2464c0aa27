import { render, type VNode } from "preact";
import { addPlace, nameFamily, nameKeeper } from "../../../pwa/src/state/holding.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { browser, killApp, NOW_MS } from "../state/surroundings.ts";

const DAY_MS = 86_400_000;

/** A small invented holding: one incubator, two families, a setting of 24 and 16 eggs that is `day` days old. */
export async function holdingAt(day: number) {
  render(null, document.body);
  await killApp();
  await openAtStart(browser().around);
  await nameKeeper({
    holding: "Gorse Bank",
    zone: "Europe/Dublin",
    temperature: "C",
    mass: "g",
    region: "uk",
  });
  const place = (await addPlace({ name: "Loft box", role: "incubator" })).id;
  const rowan = (await nameFamily({ name: "Rowan", species: "chicken", breed: "Sussex", sign: "R" })).id;
  const hazel = (await nameFamily({ name: "Hazel", species: "chicken", breed: "Sussex", sign: "H" })).id;
  const { id } = await startSetting({
    place,
    species: "chicken",
    set_at: new Date(NOW_MS - day * DAY_MS),
    lots: [
      { family: rowan, n: 24, sign: "R" },
      { family: hazel, n: 16, sign: "H" },
    ],
  });
  const [first = "", second = ""] = standing.value.settings.get(id)?.lots ?? [];
  return { place, rowan, hazel, setting: id, first, second };
}

export const show = (screen: VNode) => render(screen, document.body);

/** Lets the page draw what changed, and everything written so far become durable. */
export const settle = () => new Promise((resolve) => setTimeout(resolve, 30));

/** The button with this text at its start. */
export function buttonNamed(text: string): HTMLElement {
  const found = [...document.querySelectorAll<HTMLElement>("button, a")].find((one) =>
    (one.getAttribute("aria-label") ?? one.textContent ?? "").trim().startsWith(text),
  );
  if (!found) throw new Error(`there is no "${text}" on the screen: ${document.body.textContent}`);
  return found;
}

export async function tap(text: string): Promise<void> {
  buttonNamed(text).click();
  await settle();
}

export const figure = () => document.querySelector(".figure")?.textContent;

export const stages = (lot: string) => Object.fromEntries(standing.value.lots.get(lot)?.stages ?? []);

/** What was seen in the looks at a batch. */
export function seen(lot: string) {
  const looks = standing.value.lots.get(lot)?.looks ?? [];
  const sum = (of: "live" | "unsure" | "pipped") => looks.reduce((total, look) => total + look[of], 0);
  return { live: sum("live"), unsure: sum("unsure"), pipped: sum("pipped") };
}

export function press(key: string): Promise<unknown> {
  document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
  return settle();
}
