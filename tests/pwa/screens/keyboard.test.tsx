// @vitest-environment happy-dom
// The keys of a pedal or a keypad: one press is one answer, what is typed is none, and a number keeps its answer.
import { render } from "preact";
import { afterEach, describe, expect, it } from "vitest";
import { useKeyboard } from "../../../pwa/src/screens/keyboard.ts";
import { TallyScreen } from "../../../pwa/src/screens/tally.tsx";
import { choose } from "../../../pwa/src/state/choices.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { figure, holdingAt, press, seen, settle, show, stages, tap } from "./holding.ts";

choose("keepAwake", "no");
await import("../../../pwa/src/screens/tally-panel.tsx"); // as the page does while the first egg is held

afterEach(() => render(null, document.body));

describe("a key", () => {
  function listening() {
    const heard: string[] = [];
    function Pedal() {
      useKeyboard((key) => void heard.push(key));
      return (
        <>
          <input aria-label="Name" />
          <select aria-label="Place" />
          <textarea aria-label="Note" />
          <button type="button">Live</button>
        </>
      );
    }
    show(<Pedal />);
    const down = (on: string, about: KeyboardEventInit) =>
      document.querySelector(on)?.dispatchEvent(new KeyboardEvent("keydown", { bubbles: true, ...about }));
    return { heard, down };
  }

  it("is heard wherever the focus is, but not while the keeper types", () => {
    const { heard, down } = listening();
    down("button", { key: "1" });
    for (const field of ["input", "select", "textarea"]) down(field, { key: "2" });
    expect(heard).toEqual(["1"]);
  });

  it("that is held answers once, and one pressed with another is the browser's", () => {
    const { heard, down } = listening();
    down("button", { key: "1" });
    for (let n = 0; n < 20; n += 1) down("button", { key: "1", repeat: true });
    for (const also of ["ctrlKey", "metaKey", "altKey"]) down("button", { key: "1", [also]: true });
    expect(heard).toEqual(["1"]);
  });

  it("is heard no longer once the screen is left", async () => {
    const { heard } = listening();
    render(null, document.body);
    await press("1");
    expect(heard).toEqual([]);
  });
});

describe("at the counting screen", () => {
  it("a held key counts one egg, and Backspace in a field takes none back", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await press("2");
    const held = new KeyboardEvent("keydown", { key: "2", repeat: true, bubbles: true });
    for (let n = 0; n < 30; n += 1) document.body.dispatchEvent(held);
    await settle();
    expect(stages(first)).toEqual({ set: 23, clear: 1 });
    await tap("Type a count");
    const field = document.querySelector("input");
    field?.dispatchEvent(new KeyboardEvent("keydown", { key: "Backspace", bubbles: true }));
    await settle();
    expect([field === null, stages(first)]).toEqual([false, { set: 23, clear: 1 }]);
  });

  it("a number keeps its answer where the family is not known, and skips what cannot be said of it", async () => {
    const { setting, first, second } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Not known");
    await press("1"); // live: only said of a batch
    await press("5"); // not sure
    expect([figure(), seen(first), seen(second)]).toEqual([
      "40",
      ...Array(2).fill({ live: 0, unsure: 0, pipped: 0 }),
    ]);
    await press("2");
    await press("4");
    const { stages: all } = standing.value.settings.get(setting) ?? {};
    expect(Object.fromEntries(all ?? [])).toEqual({ set: 38, clear: 1, quitter: 1 });
    const shortcuts = [...document.querySelectorAll(".keys [aria-keyshortcuts]")].map((one) => [
      one.querySelector(".said")?.textContent,
      one.getAttribute("aria-keyshortcuts"),
    ]);
    expect(shortcuts).toEqual([
      ["Clear", "2"],
      ["Blood ring", "3"],
      ["Dead in shell", "4"],
      ["Cracked", "6"],
    ]);
  });

  it("numbers say nothing while the rarer answers are shown in their place", async () => {
    const { setting, first } = await holdingAt(7);
    show(<TallyScreen id={setting} what="candle" />);
    await settle();
    await tap("Something else");
    for (const key of ["1", "2", "6"]) await press(key);
    expect([figure(), stages(first), seen(first).live]).toEqual(["24", { set: 24 }, 0]);
    await tap("Back");
    await press("2");
    expect(stages(first)).toEqual({ set: 23, clear: 1 });
  });
});
