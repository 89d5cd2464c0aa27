// @vitest-environment happy-dom
import { render } from "preact";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { Press } from "../../../pwa/src/screens/parts/press.tsx";

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
