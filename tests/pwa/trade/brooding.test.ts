import { describe, expect, it, vi } from "vitest";
import {
  CAUTIONS,
  chicksUnderLamp,
  heatAt,
  heatSteps,
  heatWords,
  lookWords,
  WHERE,
} from "../../../pwa/src/trade/brooding.ts";
import { readVectors } from "../vectors.ts";

interface BroodingVectors {
  lamp: { room_f: number; lamps: number; chicks: number }[];
  cases: { name: string; in: { species: string; age_days: number }; out: unknown }[];
}

describe("heat", () => {
  const { cases, lamp } = readVectors("brooding") as BroodingVectors;

  it.each(lamp)("keeps $chicks chicks under $lamps lamps at $room_f °F warm", ({ room_f, lamps, chicks }) => {
    expect(chicksUnderLamp(room_f, lamps)).toBe(chicks);
  });

  it.each(cases)("is the server's: $name", ({ in: { species, age_days }, out }) => {
    const heat = heatAt(species, age_days);
    const told = heat && {
      low_f: heat.bandF?.[0] ?? null,
      high_f: heat.bandF?.[1] ?? null,
      next_day: heat.nextDay,
      off_days: heat.offDays,
    };
    expect(told ?? null).toEqual(out);
  });

  it("falls by five degrees a week from 90 to 95 °F, as five sources say, and ends", () => {
    expect(heatSteps("chicken").map(([day, heat]) => [day, heat?.bandF?.[1]])).toEqual([
      [7, 90],
      [14, 85],
      [21, 80],
      [28, 75],
      [35, 70],
      [42, undefined],
    ]);
    expect(heatSteps("moa")).toEqual([]);
  });

  it("ends also where a row says neither how low nor how long", async () => {
    const { default: table } = await import("@tables/brooding.json");
    const { floor, ...row } = table.heat.chicken;
    expect(floor).toBeDefined();
    vi.resetModules();
    vi.doMock("@tables/brooding.json", () => ({ default: { ...table, heat: { chicken: row } } }));
    const made = await import("../../../pwa/src/trade/brooding.ts");
    expect(made.heatSteps("chicken")).toEqual([]);
    expect(made.heatAt("chicken", 0)?.bandF).toEqual([90, 95]);
    vi.doUnmock("@tables/brooding.json");
  });

  it("is said in whole degrees of the keeper's scale", () => {
    expect(heatWords([85, 90], "F")).toBe("85 to 90 °F");
    expect(heatWords([85, 90], "C")).toBe("29 to 32 °C");
    expect(heatWords([90, 90], "F")).toBe("90 °F");
  });

  it("says where it is meant, what the chicks' spread says, and what to take care of", () => {
    expect(WHERE).toContain("backs");
    expect(lookWords("huddled")).toContain("cold");
    expect(CAUTIONS.join(" ")).toMatch(/fire.*hands/);
  });
});
