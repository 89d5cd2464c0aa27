// @vitest-environment happy-dom
import { afterEach, describe, expect, it, vi } from "vitest";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { choose } from "../../../pwa/src/state/choices.ts";
import { storageFault } from "../../../pwa/src/state/opening.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { buttonNamed, figure, holdingAt, press, seen, settle, show, stages, tap } from "./holding.ts";

choose("keepAwake", "no");
await import("../../../pwa/src/screens/tally-panel.tsx"); // as the page does while the first egg is held

describe("with a storage that does not work", () => {
  it("no tally begins, and the screen says why; it begins once storage works again", async () => {
    const { setting } = await holdingAt(7);
    storageFault.value = "refused";
    show(<TallyScreen id={setting} what="candle" />);
    await vi.waitFor(() => expect(document.body.textContent).toContain("it would not be kept"));
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

  it("counts no egg twice where a second tap comes before the first is drawn", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    buttonNamed("The rest are live").click();
    await press("2");
    expect([seen(first).live, stages(first)]).toEqual([24, { set: 24 }]);
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

describe("keeping the screen on", () => {
  const ASK = "Keep the screen on while you count?";
  afterEach(() => {
    choose("keepAwake", "no");
    vi.unstubAllGlobals();
  });

  it("is asked once, where the browser can, and then done", async () => {
    let held = 0;
    const request = () => {
      held += 1;
      return Promise.resolve(Object.assign(new EventTarget(), { release: () => Promise.resolve() }));
    };
    vi.stubGlobal("navigator", { wakeLock: { request } });
    choose("keepAwake", "unasked");
    const { setting } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    expect(document.body.textContent).toContain(ASK);
    expect(held).toBe(0);
    await tap("Keep it on");
    expect(document.body.textContent).not.toContain(ASK);
    expect(held).toBe(1);
    show(<TallyScreen id={setting} what="lockdown" />);
    await settle();
    expect(document.body.textContent).not.toContain(ASK);
  });

  it("is not asked where the browser cannot", async () => {
    choose("keepAwake", "unasked");
    vi.stubGlobal("navigator", {});
    const { setting } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    expect(document.body.textContent).not.toContain(ASK);
  });
});

describe("a look at the hatch", () => {
  const strip = () => document.querySelector(".egg-strip")?.getAttribute("aria-label");

  it("takes a chick that comes out off the eggs that were pipped; those that pip after it are others", async () => {
    const { setting, first } = await holdingAt(21);
    show(<TallyScreen id={setting} what="hatch" />);
    await settle();
    for (const word of ["Pipped", "Pipped", "Pipped"]) await tap(word);
    expect(strip()).toBe("Rowan: 3 pipped, 21 in hand");
    for (const word of ["Hatched", "Hatched"]) await tap(word);
    expect(strip()).toBe("Rowan: 2 hatched, 1 pipped, 21 in hand");
    await tap("Hatched");
    expect(strip()).toBe("Rowan: 3 hatched, 21 in hand");
    expect(document.body.textContent).not.toContain("keep the lid shut");
    await tap("Pipped");
    expect(strip()).toBe("Rowan: 3 hatched, 1 pipped, 20 in hand");
    expect(seen(first).pipped).toBe(4);
    await tap("Not known");
    expect(strip()).toBe("Not known: 3 hatched, 1 pipped, 36 in hand");
  });

  it("sounds as done when the last egg is out, not when it pips or nothing is new", async () => {
    const buzz = vi.fn();
    vi.stubGlobal("navigator", { vibrate: buzz });
    choose("vibration", "yes");
    const { setting } = await holdingAt(21);
    show(<TallyScreen id={setting} what="hatch" />);
    await settle();
    for (let n = 1; n < 24; n += 1) await press("1");
    buzz.mockClear();
    const [KEPT, DONE] = [[30], [30, 60, 30, 60, 90]];
    await press("2");
    await press("6");
    expect(figure()).toBe("1");
    expect(buzz.mock.calls).toEqual([[KEPT], [KEPT]]);
    await press("1");
    expect(buzz.mock.lastCall).toEqual([DONE]);
    choose("vibration", "no");
    vi.unstubAllGlobals();
  });
});
