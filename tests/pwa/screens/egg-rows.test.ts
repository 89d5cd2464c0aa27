import { describe, expect, it } from "vitest";
import { groupEggs } from "../../../pwa/src/screens/parts/egg-rows.ts";

describe("eggs of a strip", () => {
  it("stand five by five, numbered through", () => {
    const groups = groupEggs([
      { shape: "live", n: 8 },
      { shape: "unsure", n: 1 },
      { shape: "hand", n: 4 },
    ]);
    expect(groups.map((group) => group.upTo)).toEqual([5, 10, 13]);
    expect(groups[1]?.eggs).toEqual(["live", "live", "live", "unsure", "hand"]);
  });

  it("are none where nothing is counted, or a count fell below zero", () => {
    expect(groupEggs([{ shape: "live", n: 0 }])).toEqual([]);
    expect(groupEggs([{ shape: "live", n: -3 }])).toEqual([]);
  });
});
