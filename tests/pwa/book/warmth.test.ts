import { describe, expect, it } from "vitest";
import { adviceFor } from "../../../pwa/src/book/warmth.ts";

/** 90 to 95 °F, the first week of chicks. */
const BAND = { lowC: (90 - 32) / 1.8, highC: 35 };

describe("the chicks outrank the thermometer", () => {
  it("leaves chicks that lie spread alone, whatever is read", () => {
    expect(adviceFor("spread", null, BAND)).toEqual({ kind: "well" });
    expect(adviceFor("spread", 33, BAND)).toEqual({ kind: "well" });
    expect(adviceFor("spread", 28, BAND)).toEqual({ kind: "leave" });
    expect(adviceFor("spread", 39, BAND)).toEqual({ kind: "leave" });
  });

  it("follows chicks that are cold or hot against the thermometer, and says so", () => {
    expect(adviceFor("huddled", 30, BAND)).toEqual({ kind: "raise" });
    expect(adviceFor("huddled", 34, BAND)).toEqual({ kind: "raiseAnyway" });
    expect(adviceFor("away", 38, BAND)).toEqual({ kind: "lower" });
    expect(adviceFor("away", 30, BAND)).toEqual({ kind: "lowerAnyway" });
    expect(adviceFor("one_side", 38, BAND)).toEqual({ kind: "draught" });
  });

  it("goes by the thermometer only where nobody looked, and not within half a degree", () => {
    expect(adviceFor(null, 35.5, BAND)).toEqual({ kind: "inBand" });
    expect(adviceFor(null, 36, BAND)).toEqual({ kind: "above", offC: 1 });
    expect(adviceFor(null, 30, BAND)).toMatchObject({ kind: "below", offC: BAND.lowC - 30 });
    expect(adviceFor(null, 30, null)).toBeNull();
    expect(adviceFor(null, null, BAND)).toBeNull();
  });
});
