// @vitest-environment happy-dom
// What opens beside the counting: putting back, counting by hand, lockdown by hatcher, the hatch and the opening.
import { describe, expect, it } from "vitest";
import { cautions } from "../../../pwa/src/app/words/tally-panels.ts";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { choose } from "../../../pwa/src/state/choices.ts";
import { addPlace } from "../../../pwa/src/state/holding.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { take } from "../../../pwa/src/state/tally.ts";
import { path } from "../../../pwa/src/state/whereabouts.ts";
import { NOW_MS } from "../state/surroundings.ts";
import { figure, holdingAt, press, seen, settle, show, stages, tap } from "./holding.ts";

choose("keepAwake", "no");
await import("../../../pwa/src/screens/tally-panel.tsx"); // as the page does while the first egg is held

describe("eggs that are not where the book has them", () => {
  it("go back among the others one by one, also found ones", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Clear");
    await tap("Clear");
    await tap("Something else");
    await tap("Missing");
    await tap("Something else");
    await tap("Put an egg back");
    await tap("One of 2 clear, back in");
    expect(stages(first)).toEqual({ set: 22, clear: 1, unaccounted: 1 });
    await tap("Something else");
    await tap("Put an egg back");
    await tap("One missing, back in");
    expect(stages(first)).toEqual({ set: 23, clear: 1 });
    expect(standing.value.problems).toEqual([]);
  });

  it("explain a count by hand that found more, each in the words of where they were down as", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Clear");
    await tap("Something else");
    await tap("Count again");
    await tap("One more");
    await tap("That is the count");
    expect(document.body.textContent).toContain("You counted 24; the book says 23.");
    await tap("1 egg put back that was down as clear");
    expect(stages(first)).toEqual({ set: 24 });
    expect(standing.value.problems).toEqual([]);
  });

  it("where none is out, the keeper is sent to the book and nothing is changed", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Something else");
    await tap("Count again");
    await tap("One more");
    await tap("That is the count");
    expect(document.body.textContent).toContain("The book has not so many out of this batch.");
    expect(stages(first)).toEqual({ set: 24 });
    expect(standing.value.problems.map((one) => one.code)).toEqual(["count_differs"]);
  });

  it("counting again at lockdown leaves the candling of that day as it was", async () => {
    const { setting, first } = await holdingAt(18);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("The rest are live");
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("Something else");
    await tap("Count again");
    await tap("That is the count");
    await tap("Done");
    expect(seen(first).live).toBe(24);
  });

  it("of unknown family leave no batch more in hand than all of them hold", async () => {
    const { setting, first, second } = await holdingAt(18);
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("Not known");
    await tap("Clear");
    await tap("Rowan");
    await tap("The rest go in");
    await tap("Next: Hazel");
    expect(figure()).toBe("15");
    await tap("The rest go in");
    expect([stages(first), stages(second)]).toEqual([{ locked: 24 }, { set: 1, locked: 15 }]);
    expect(standing.value.problems).toEqual([]);
    expect(document.body.textContent).toContain("Every egg is in the hatcher.");
  });
});

describe("lockdown", () => {
  it("dated yesterday is a lockdown of yesterday as a whole", async () => {
    const { setting } = await holdingAt(19);
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("Something else");
    await tap("When: now");
    await tap("Yesterday");
    await tap("That is when");
    await tap("The rest go in");
    await tap("Next: Hazel");
    await tap("The rest go in");
    await tap("Lockdown done");
    const eggs = (standing.value.heads.moved ?? []).map(({ atMs }) => atMs);
    expect(new Set(eggs)).toEqual(new Set([standing.value.settings.get(setting)?.lockedAtMs]));
    expect(NOW_MS - (eggs[0] ?? 0)).toBeGreaterThan(12 * 3_600_000);
  });

  it("takes eggs in one by one, and those that stay out from the incubator alone", async () => {
    const { setting, first } = await holdingAt(18);
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("Into the hatcher");
    await tap("Into the hatcher");
    await tap("Clear");
    expect(stages(first)).toEqual({ set: 21, locked: 2, clear: 1 });
    expect(standing.value.problems).toEqual([]);
  });

  it("names the hatcher the eggs went to", async () => {
    const { setting } = await holdingAt(18);
    const { id } = await addPlace({ name: "Hatch box", role: "hatcher" });
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("The rest go in");
    await tap("Next: Hazel");
    await tap("The rest go in");
    await tap("Lockdown done, now in Hatch box");
    expect(standing.value.settings.get(setting)?.lockedPlace).toBe(id);
  });

  it("moves eggs into the hatcher and is done with one act", async () => {
    const { setting, first, second } = await holdingAt(18);
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    await tap("Clear");
    await tap("The rest go in");
    await tap("Next: Hazel");
    await tap("The rest go in");
    await tap("Lockdown done");
    expect([stages(first), stages(second)]).toEqual([{ clear: 1, locked: 23 }, { locked: 16 }]);
    expect(standing.value.settings.get(setting)?.lockedAtMs).not.toBeNull();
    expect(path.value).toBe(`/setting/${setting}`);
  });
});

describe("the hatch and the opening", () => {
  it("count chicks, pips, helped and dead ones, then what did not hatch", async () => {
    const { setting, first } = await holdingAt(21);
    show(<TallyScreen id={setting} what="hatch" />);
    await settle();
    await tap("Pipped");
    expect(seen(first).pipped).toBe(1);
    expect(figure()).toBe("24");
    for (let chick = 0; chick < 3; chick += 1) await press("1");
    await tap("Helped out");
    await tap("Hatched, died");
    expect(stages(first)).toEqual({ set: 19, hatched: 4, died: 1 });
    expect(standing.value.lots.get(first)?.moves.filter((move) => move.helped)).toHaveLength(1);
    expect(standing.value.problems).toEqual([]);

    show(<TallyScreen id={setting} what="open" />);
    await settle();
    await tap("Infertile");
    await tap("Died late");
    await tap("Pipped inside");
    expect(figure()).toBe("16");
    expect(stages(first)).toEqual({
      set: 16,
      hatched: 4,
      died: 1,
      infertile: 1,
      dead_late: 1,
      dead_internal_pip: 1,
    });
    expect(standing.value.problems).toEqual([]);
  });

  it("write the age of an opened egg, from which its stage follows, and nothing where it is not known", async () => {
    const { setting, first } = await holdingAt(23);
    show(<TallyScreen id={setting} what="open" />);
    await settle();
    await tap("Which is it?");
    expect(document.body.textContent).toContain("Candle and listen first");
    for (let day = 0; day < 10; day += 1) await tap("One more");
    expect(document.body.textContent).toContain("Day 10: Died midway. A comb like a fine saw.");
    await tap("Died midway, about day 10");
    await tap("Died late");
    const died = standing.value.lots.get(first)?.moves.filter((move) => move.source === "unhatched") ?? [];
    expect(died.map(({ target, day }) => [target, day])).toEqual([
      ["dead_mid", 10],
      ["dead_late", null],
    ]);
  });

  it("warn of an opening that comes before late chicks have had their day", async () => {
    const { setting } = await holdingAt(22);
    show(<TallyScreen id={setting} what="hatch" />);
    await settle();
    await tap("Hatched");
    show(<TallyScreen id={setting} what="open" />);
    await settle();
    expect(document.body.textContent).toContain("Last chick 0 h ago: wait until it is 24 h.");
    expect(cautions.tooSoon(3, 36)).toBe("Last chick 3 h ago: wait until it is 36 h.");
  });

  it("let an egg that peeps go back into the machine", async () => {
    const { setting, first } = await holdingAt(23);
    await take({ lot: first, to: "unhatched", n: 2 });
    show(<TallyScreen id={setting} what="open" />);
    await settle();
    await tap("Something else");
    await tap("Put an egg back");
    await tap("One of 2 did not hatch, back in");
    expect(stages(first)).toEqual({ set: 23, unhatched: 1 });
    expect(standing.value.problems).toEqual([]);
  });

  it("let a chick that was put out as unhatched hatch after all, with help", async () => {
    const { setting, first } = await holdingAt(23);
    show(<TallyScreen id={setting} what="open" />);
    await settle();
    await tap("Something else");
    await tap("Helped out");
    expect(stages(first)).toEqual({ set: 23, hatched: 1 });
    expect(standing.value.lots.get(first)?.moves.at(-1)?.helped).toBe(true);
    expect(standing.value.problems).toEqual([]);
  });

  it("take a tray that was counted on paper", async () => {
    const { setting, first } = await holdingAt(21);
    show(<TallyScreen id={setting} what="hatch" />);
    await settle();
    await tap("Type a count");
    const field = [...document.querySelectorAll("input")].find(
      (one) => one.getAttribute("aria-label") === "Hatched",
    );
    if (!field) throw new Error("there is no field for the hatched");
    field.value = "18";
    field.dispatchEvent(new Event("input", { bubbles: true }));
    await settle();
    expect(document.body.textContent).toContain("6 stay in hand");
    await tap("Write these down");
    expect(stages(first)).toEqual({ set: 6, hatched: 18 });
    expect(figure()).toBe("6");
  });
});
