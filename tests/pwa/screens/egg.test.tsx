// @vitest-environment happy-dom
import { render } from "preact";
import { describe, expect, it } from "vitest";
import { Egg, type EggShape } from "../../../pwa/src/screens/parts/egg.tsx";
import { KEYS, OTHER_KEYS, TALLIES } from "../../../pwa/src/screens/tally-plan.ts";

const SHAPES = [
  ...new Set(TALLIES.flatMap((what) => [...KEYS[what], ...OTHER_KEYS[what]].map((key) => key.shape))),
];

function drawn(shape: EggShape, lying = false): Element {
  const root = document.createElement("div");
  render(<Egg shape={shape} lying={lying} />, root);
  const svg = root.firstElementChild;
  if (!svg) throw new Error("nothing drawn");
  return svg;
}

describe("an egg", () => {
  it("is of one colour, whatever its state, so that no eye and no light can take it for another", () => {
    expect(SHAPES.length).toBe(22);
    for (const shape of SHAPES) {
      const colours = [...drawn(shape).querySelectorAll("*")].flatMap((part) => [
        part.getAttribute("fill"),
        part.getAttribute("stroke"),
      ]);
      const other = colours.filter(
        (colour) => ![null, "none", "currentColor", "var(--paper)"].includes(colour),
      );
      expect([shape, other]).toEqual([shape, []]);
    }
  });

  it("tells every state by a shape of its own, and lies on its side once it is out", () => {
    const standing = SHAPES.map((shape) => drawn(shape).innerHTML);
    expect(new Set(standing).size).toBe(SHAPES.length);
    for (const shape of SHAPES) {
      const [upright, lying] = [drawn(shape), drawn(shape, true)].map((one) => one.getAttribute("viewBox"));
      expect([upright, lying]).toEqual(["0 0 26 32", "0 0 32 26"]);
    }
  });
});
