// @vitest-environment happy-dom
import { render } from "preact";
import { describe, expect, it } from "vitest";
import { Why } from "../../../pwa/src/screens/parts/why.tsx";
import { RateWhy } from "../../../pwa/src/screens/rate-why.tsx";
import { rateOf } from "../../../pwa/src/trade/proportions.ts";

const text = () => document.body.textContent ?? "";

describe("why?", () => {
  it("tells the sum, what stands in it, and how far its source can be trusted", () => {
    render(
      <Why
        about="Humidity"
        formula="From dry and wet bulb."
        inputs={[{ name: "Wet bulb", value: "29.4 °C" }]}
        sources={[{ title: "A handbook", status: "memory" }, { title: "A paper" }]}
      />,
      document.body,
    );
    expect(document.querySelector("summary")?.textContent).toBe("Why? Humidity");
    for (const told of [
      "From dry and wet bulb.",
      "Wet bulb29.4 °C",
      "Source: A handbook; commonly used, not yet checked against its source.",
      "Source: A paper.",
    ])
      expect(text()).toContain(told);
  });

  it("shows the counts behind each rate, and says where there are none yet", () => {
    const outcome = {
      fertility: rateOf(14, 15, { basis: "candled" }),
      hatchOfSet: rateOf(0, 0),
      hatchOfFertile: rateOf(0, 0),
    };
    render(<RateWhy outcome={outcome} measures={["fertility", "hatchOfFertile"]} />, document.body);
    expect(text()).toContain("14 of 15");
    expect(text()).toContain("chicks out, of the fertilenot known yet");
    expect(text()).not.toContain("of all eggs set");
    expect(text()).toContain("Wilson");
  });
});
