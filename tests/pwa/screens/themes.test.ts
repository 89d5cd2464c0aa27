// Contrast of every theme, from the tokens themselves. Formula: WCAG 2.2, "relative luminance" and "contrast ratio".
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

const css = readFileSync(new URL("../../../pwa/src/app/tokens.css", import.meta.url), "utf8");

type Tokens = Readonly<Record<string, string>>;

function tokensOf(selector: string): Tokens {
  const start = css.indexOf(`${selector} {`);
  const block = css.slice(start, css.indexOf("}", start));
  return Object.fromEntries(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{3,6});/g)].map(([, name, value]) => [name, value]),
  );
}

const hatchRoom = tokensOf('[data-theme="hatch-room"]');
const THEMES: Readonly<Record<string, Tokens>> = {
  day: tokensOf('[data-theme="day"]'),
  night: tokensOf('[data-theme="night"]'),
  "hatch-room": hatchRoom,
  amber: { ...hatchRoom, ...tokensOf('[data-theme="hatch-room"][data-tone="amber"]') },
};

function luminance(colour: string): number {
  const hex = colour.length === 4 ? [...colour.slice(1)].map((c) => c + c).join("") : colour.slice(1);
  const [r = 0, g = 0, b = 0] = [0, 2, 4].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a = "", b = ""): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

describe.each(Object.entries(THEMES))("the %s theme", (_name, tokens) => {
  it("prints text at 4.5 to 1 and better", () => {
    for (const text of ["ink", "quiet", "watch", "loss"]) {
      for (const ground of ["paper", "sheet"]) {
        expect([text, ground, contrast(tokens[text], tokens[ground]) >= 4.5]).toEqual([text, ground, true]);
      }
    }
    expect(contrast(tokens["yolk-ink"], tokens.yolk)).toBeGreaterThanOrEqual(4.5);
  });

  it("draws edges and marks at 3 to 1 and better", () => {
    for (const mark of ["edge", "yolk"]) {
      expect([mark, contrast(tokens[mark], tokens.paper) >= 3]).toEqual([mark, true]);
    }
  });
});

describe("the hatch room", () => {
  it("has one hue for what is well, to heed or lost: whatever is told there is told by word, weight or shape", () => {
    for (const tokens of [hatchRoom, THEMES.amber ?? {}])
      expect([tokens.watch, tokens.loss, tokens.yolk]).toEqual([tokens.ink, tokens.ink, tokens.ink]);
  });

  it("is red or amber on black: no green to speak of, no blue, no bright ground", () => {
    for (const colour of Object.values(hatchRoom)) {
      const [r = 0, g = 0, b = 0] = [...colour.slice(1).matchAll(/../g)].map(([pair]) =>
        Number.parseInt(pair, 16),
      );
      if (colour.length > 4) expect(r).toBeGreaterThanOrEqual(Math.max(g, b) * 2);
    }
    expect(luminance(hatchRoom.paper ?? "#fff")).toBe(0);
    for (const ground of ["sheet", "band", "shade"])
      expect(luminance(hatchRoom[ground] ?? "#fff")).toBeLessThan(0.03);
  });
});
