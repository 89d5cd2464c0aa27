// @vitest-environment happy-dom
// Pipped eggs at the counting screen: they hold over days, are in the shell, and none that is typed is lost.
import { describe, expect, it } from "vitest";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { choose } from "../../../pwa/src/state/choices.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { lookPipped, take } from "../../../pwa/src/state/tally.ts";
import { buttonNamed, figure, holdingAt, press, seen, settle, show, stages, tap } from "./holding.ts";

choose("keepAwake", "no");
await import("../../../pwa/src/screens/tally-panel.tsx"); // as the page does while the first egg is held

const page = () => document.body.textContent ?? "";
const strip = () => document.querySelector(".egg-strip")?.getAttribute("aria-label");
const isOff = (name: string) => buttonNamed(name).getAttribute("aria-disabled") === "true";

async function type(label: string, value: string) {
  const field = document.querySelector<HTMLInputElement>(`input[aria-label="${label}"]`);
  if (!field) throw new Error(`there is no field for ${label}`);
  field.value = value;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  await settle();
}

/** Day 21 of a setting, with so many of 24 eggs pipped on the day before and so many left in the shell. */
async function lookOn(pipped: number, left = 24) {
  const { setting, first } = await holdingAt(21);
  if (left < 24) await take({ lot: first, to: "unhatched", n: 24 - left });
  if (pipped > 0) await lookPipped({ setting, lot: first, day: 20, n: pipped });
  show(<TallyScreen id={setting} what="hatch" />);
  await settle();
  return { setting, first };
}

describe("pipped eggs", () => {
  it("of the day before still keep the lid shut, and nothing new changes none", async () => {
    await lookOn(3);
    expect(strip()).toBe("Rowan: 3 pipped, 21 in hand");
    expect(page()).toContain("keep the lid shut");
    await tap("Nothing new");
    await tap("Pipped");
    expect(strip()).toBe("Rowan: 4 pipped, 20 in hand");
    await tap("Not known");
    expect(strip()).toBe("Not known: 4 pipped, 36 in hand");
    expect(page()).toContain("keep the lid shut");
  });

  it("are no more than the eggs in the shell, by tap, by key and by a tap before the last is drawn", async () => {
    const { first } = await lookOn(1, 3);
    expect(isOff("Pipped")).toBe(false);
    buttonNamed("Pipped").click();
    buttonNamed("Pipped").click();
    buttonNamed("Pipped").click();
    await settle();
    expect(seen(first).pipped).toBe(3);
    expect([isOff("Pipped"), buttonNamed("Pipped").textContent]).toEqual([true, "Pippedall 3 so far"]);
    await tap("Pipped");
    await press("2");
    expect([seen(first).pipped, figure()]).toEqual([3, "3"]);
    await tap("Hatched");
    await tap("Hatched, died");
    expect(strip()).toContain("1 pipped");
    expect(isOff("Pipped")).toBe(true);
    expect(standing.value.problems).toEqual([]);
  });
});

describe("a tray counted on paper", () => {
  it("is refused in words where more are pipped than stay in the shell unpipped", async () => {
    const { first } = await lookOn(4, 10);
    await tap("Type a count");
    await type("Hatched", "3");
    await type("Pipped", "7");
    // Ten in the shell, four pipped: three come out of those, one stays pipped, and six others can pip.
    expect(page()).toContain("Pipped: 6 more at most. Of the eggs that stay, 1 is down as pipped already.");
    expect(isOff("Write these down")).toBe(true);
    await tap("Write these down");
    expect(stages(first).hatched).toBeUndefined();
    await type("Pipped", "6");
    expect(page()).not.toContain("at most");
    await tap("Write these down");
    expect([stages(first).hatched, seen(first).pipped]).toEqual([3, 10]);
    expect(strip()).toContain("7 pipped");
  });

  it("keeps those typed as pipped apart from chicks of the same look", async () => {
    await lookOn(0, 10);
    await tap("Type a count");
    for (const [label, n] of [
      ["Helped out", "2"],
      ["Pipped", "9"],
    ] as const)
      await type(label, n);
    expect(page()).toContain("Pipped: 8 at most, as many as stay in the shell.");
    await type("Pipped", "3");
    await tap("Write these down");
    expect(strip()).toContain("2 hatched, 3 pipped, 5 in hand");
  });

  it("says which counts are not written where another phone was quicker, and keeps them", async () => {
    const { first } = await lookOn(0, 10);
    await tap("Type a count");
    await type("Hatched", "6");
    await type("Pipped", "4");
    void record("moved", { moves: [{ lot: first, from: "set", to: "hatched", n: 7 }], why: "hatch" });
    buttonNamed("Write these down").click();
    await settle();
    expect(page()).toContain("What is typed here is not written");
    expect(stages(first).hatched).toBe(7);
    expect(document.querySelector<HTMLInputElement>('input[aria-label="Pipped"]')?.value).toBe("4");
    expect(standing.value.problems).toEqual([]);
  });
});
