// @vitest-environment happy-dom
import { render } from "preact";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { Press } from "../../../pwa/src/screens/parts/press.tsx";
import { recent } from "../../../pwa/src/state/recording.ts";
import { writer } from "../storage/entries-of.ts";

const BOX = {
  left: 0,
  top: 0,
  right: 100,
  bottom: 60,
  width: 100,
  height: 60,
  x: 0,
  y: 0,
  toJSON: () => ({}),
};

const AWAY = { ...BOX, top: 900, bottom: 960, y: 900 };

function button(onPress: () => void, off = false): HTMLButtonElement {
  render(
    <Press onPress={onPress} off={off}>
      Clear
    </Press>,
    document.body,
  );
  const found = document.querySelector("button");
  if (!found) throw new Error("no button was drawn");
  found.getBoundingClientRect = () => BOX;
  return found;
}

const pointer = (type: string, at: Partial<PointerEventInit> = {}) =>
  new PointerEvent(type, {
    bubbles: true,
    pointerId: 1,
    isPrimary: true,
    button: 0,
    clientX: 50,
    clientY: 30,
    ...at,
  });

beforeEach(() => render(null, document.body));

describe("a press", () => {
  it("acts once, when the finger lifts inside it, before any click", () => {
    const act = vi.fn();
    const one = button(act);
    one.dispatchEvent(pointer("pointerdown"));
    expect(act).not.toHaveBeenCalled();
    one.dispatchEvent(pointer("pointerup"));
    expect(act).toHaveBeenCalledTimes(1);
    one.click();
    expect(act).toHaveBeenCalledTimes(1);
  });

  it("counts every one of several quick taps", () => {
    const act = vi.fn();
    const one = button(act);
    for (let tap = 0; tap < 5; tap += 1) {
      one.dispatchEvent(pointer("pointerdown"));
      one.dispatchEvent(pointer("pointerup"));
    }
    expect(act).toHaveBeenCalledTimes(5);
  });

  it("does nothing when the finger slid off, when a scroll took it, or for a second finger", () => {
    const act = vi.fn();
    const one = button(act);
    one.dispatchEvent(pointer("pointerdown"));
    one.dispatchEvent(pointer("pointerup", { clientX: 300 }));
    one.dispatchEvent(pointer("pointerdown"));
    one.dispatchEvent(pointer("pointercancel"));
    one.dispatchEvent(pointer("pointerup"));
    one.dispatchEvent(pointer("pointerdown", { pointerId: 2, isPrimary: false }));
    one.dispatchEvent(pointer("pointerup", { pointerId: 2, isPrimary: false }));
    one.dispatchEvent(pointer("pointerdown", { button: 2 }));
    one.dispatchEvent(pointer("pointerup", { button: 2 }));
    expect(act).not.toHaveBeenCalled();
  });

  it("keeps the browser from making a second tap of the same touch", () => {
    const act = vi.fn();
    const one = button(act);
    one.dispatchEvent(pointer("pointerdown"));
    one.dispatchEvent(pointer("pointerup"));
    const end = new Event("touchend", { bubbles: true, cancelable: true });
    one.dispatchEvent(end);
    expect(end.defaultPrevented).toBe(true);
    one.click();
    expect(act).toHaveBeenCalledTimes(2); // a screen reader's click after a touch is not swallowed
  });

  it("answers a keyboard or a screen reader, which send a click alone", () => {
    const act = vi.fn();
    button(act).click();
    expect(act).toHaveBeenCalledTimes(1);
  });

  it("is told as off and does nothing when it is off", () => {
    const act = vi.fn();
    const one = button(act, true);
    one.click();
    expect(act).not.toHaveBeenCalled();
    expect(one.getAttribute("aria-disabled")).toBe("true");
  });
});

describe("a press that writes", () => {
  const { entry } = writer("phone-a");
  /** A tap of a finger at a place, so many ms after the last. */
  function tapAt(on: HTMLButtonElement, at_ms: number, place: Partial<PointerEventInit> = {}) {
    for (const type of ["pointerdown", "pointerup"]) {
      const event = pointer(type, place);
      Object.defineProperty(event, "timeStamp", { value: at_ms });
      on.dispatchEvent(event);
    }
  }
  function buttons() {
    const write = () => {
      recent.value = [...recent.value, entry()];
    };
    const [writing, counting] = [vi.fn(write), vi.fn(write)];
    render(
      <>
        <Press onPress={writing}>3 culled</Press>
        <Press counts onPress={counting}>
          Clear
        </Press>
      </>,
      document.body,
    );
    const [one, other] = document.querySelectorAll("button");
    if (!one || !other) throw new Error("no buttons were drawn");
    for (const each of [one, other]) each.getBoundingClientRect = () => BOX;
    return { writing, counting, one, other };
  }
  let start_ms = 0;
  beforeEach(() => {
    start_ms = performance.now() + 10_000 + start_ms; // far from the taps of the test before
  });

  it("swallows what is left of a double tap, however long it goes on, and takes the next tap that is meant", () => {
    const { writing, one } = buttons();
    for (const ms of [0, 120, 400, 800]) tapAt(one, start_ms + ms);
    expect(writing).toHaveBeenCalledTimes(1);
    tapAt(one, start_ms + 1400);
    expect(writing).toHaveBeenCalledTimes(2);
  });

  it("keeps no other button from being tapped, and no key that counts from being tapped fast", () => {
    const { counting, one, other } = buttons();
    tapAt(one, start_ms);
    for (const ms of [100, 200, 300, 400]) tapAt(other, start_ms + ms);
    expect(counting).toHaveBeenCalledTimes(4);
  });

  it.each(["slid away", "vanished"])(
    "once it %s keeps what lies there now from the rest of a double tap",
    (how) => {
      const { writing, counting, one, other } = buttons();
      tapAt(one, start_ms);
      if (how === "vanished") one.remove();
      one.getBoundingClientRect = () => (how === "vanished" ? new DOMRect() : AWAY);
      for (const ms of [90, 250, 390]) tapAt(other, start_ms + ms, { clientX: 20 });
      expect([writing.mock.calls.length, counting.mock.calls.length]).toEqual([1, 0]);
      tapAt(other, start_ms + 410); // seen by now, and meant
      for (const ms of [450, 500, 550]) tapAt(other, start_ms + ms); // a key that counts, as fast as it is tapped
      expect(counting).toHaveBeenCalledTimes(4);
    },
  );

  it("keeps no tap from what lies beside its place, nor a keyboard's", () => {
    const beside = buttons();
    tapAt(beside.one, start_ms, { clientX: 10 });
    beside.one.getBoundingClientRect = () => AWAY;
    tapAt(beside.other, start_ms + 100, { clientX: 90 });
    expect(beside.counting).toHaveBeenCalledTimes(1);
    const byKeys = buttons();
    const click = new MouseEvent("click", { bubbles: true, clientX: 50, clientY: 30 });
    Object.defineProperty(click, "timeStamp", { value: start_ms + 5100 });
    tapAt(byKeys.one, start_ms + 5000);
    byKeys.one.getBoundingClientRect = () => AWAY;
    byKeys.other.dispatchEvent(new Event("pointerdown", { bubbles: true })); // what was tapped last is over
    byKeys.other.dispatchEvent(click);
    expect(byKeys.counting).toHaveBeenCalledTimes(1);
  });

  it("takes a tap that others came before: that is no double tap", () => {
    const { writing, counting, one, other } = buttons();
    tapAt(one, start_ms);
    tapAt(other, start_ms + 100, { clientX: 95 });
    tapAt(one, start_ms + 200);
    expect([writing.mock.calls.length, counting.mock.calls.length]).toEqual([2, 1]);
  });

  it("hears a key that is held down once", () => {
    const { writing, one } = buttons();
    for (let n = 0; n < 4; n += 1) one.click();
    expect(writing).toHaveBeenCalledTimes(1);
  });

  it("takes every tap while it writes nothing: a form put right fast, several entries taken back", () => {
    const { writing, one } = buttons();
    recent.value = [entry(), entry(), entry(), entry()];
    writing.mockImplementation(() => {
      recent.value = recent.value.slice(0, -1);
    });
    for (const ms of [0, 100, 200]) tapAt(one, start_ms + ms);
    expect(writing).toHaveBeenCalledTimes(3);
  });
});
