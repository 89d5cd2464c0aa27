// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { choose } from "../../../pwa/src/state/choices.ts";
import { storageFault } from "../../../pwa/src/state/opening.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { path } from "../../../pwa/src/state/whereabouts.ts";
import { figure, holdingAt, settle, show, stages, tap } from "./holding.ts";

choose("keepAwake", "no");

const seen = (lot: string) => {
  const looks = standing.value.lots.get(lot)?.looks ?? [];
  const sum = (of: "live" | "unsure" | "pipped") => looks.reduce((total, look) => total + look[of], 0);
  return { live: sum("live"), unsure: sum("unsure"), pipped: sum("pipped") };
};

const press = (key: string) => {
  document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }));
  return settle();
};

describe("with a storage that does not work", () => {
  it("no tally begins, and the screen says why; it begins once storage works again", async () => {
    const { setting } = await holdingAt(7);
    storageFault.value = "refused";
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    expect(document.body.textContent).toContain("it would not be kept");
    expect(document.body.textContent).toContain("A private window keeps nothing");
    expect(figure()).toBeUndefined();
    await tap("Try again");
    expect(figure()).toBe("24");
  });

  it("a tally that is already open goes on, so that nothing on the screen is lost", async () => {
    const { setting } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    storageFault.value = "full";
    await settle();
    expect(figure()).toBe("24");
    storageFault.value = null;
  });
});

describe("candling", () => {
  it("counts one egg a tap, takes the last one back, and finishes the rest at once", async () => {
    const { setting, first, second } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    expect(figure()).toBe("24");
    await tap("Live");
    await tap("Live");
    await tap("Clear");
    await tap("Blood ring");
    await tap("Not sure");
    expect(figure()).toBe("19");
    await tap("Undo");
    expect(seen(first)).toEqual({ live: 2, unsure: 0, pipped: 0 });
    expect(figure()).toBe("20");
    await tap("The rest are live");
    expect(seen(first).live).toBe(22);
    expect(stages(first)).toEqual({ set: 22, clear: 1, blood_ring: 1 });
    await tap("Next: Hazel");
    expect(figure()).toBe("16");
    expect(stages(second)).toEqual({ set: 16 });
  });

  it("answers the keys of a pedal, and Backspace takes back", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    for (const key of ["1", "1", "2", "4", "6"]) await press(key);
    expect(stages(first)).toEqual({ set: 21, clear: 1, quitter: 1, cracked: 1 });
    expect(seen(first).live).toBe(2);
    await press("Backspace");
    expect(stages(first)).toEqual({ set: 22, clear: 1, quitter: 1 });
  });

  it("never counts more eggs than are in hand", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("The rest are live");
    await press("2");
    expect(stages(first)).toEqual({ set: 24 });
  });

  it("takes an egg whose family is not known from the setting alone", async () => {
    const { setting, first, second } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Not known");
    await tap("Clear");
    expect(standing.value.settings.get(setting)?.stages.get("clear")).toBe(1);
    expect([stages(first), stages(second)]).toEqual([{ set: 24 }, { set: 16 }]);
    expect(standing.value.lots.get(first)?.open.get("clear")).toBe(1);
  });

  it("puts eggs one was not sure of back in hand", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Not sure");
    await tap("The rest are live");
    await tap("Look again at 1 not sure");
    expect(figure()).toBe("1");
    await tap("Clear");
    expect(seen(first)).toEqual({ live: 23, unsure: 0, pipped: 0 });
    expect(stages(first)).toEqual({ set: 23, clear: 1 });
  });

  it("shows a count by hand beside the book's, and writes the missing only when told", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Live");
    await tap("Something else");
    await tap("Count again");
    await tap("One fewer");
    await tap("That is the count");
    expect(document.body.textContent).toContain("You counted 23; the book says 24.");
    expect(seen(first).live).toBe(0);
    expect(standing.value.problems.map((problem) => problem.code)).toEqual(["count_differs"]);
    await tap("1 egg missing");
    expect(stages(first)).toEqual({ set: 23, unaccounted: 1 });
    expect(standing.value.problems).toEqual([]);
  });
});

describe("lockdown", () => {
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
