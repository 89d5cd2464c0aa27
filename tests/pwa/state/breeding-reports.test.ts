import { afterEach, describe, expect, it } from "vitest";
import { chanceTold, pct } from "../../../pwa/src/app/words/answers.ts";
import { askPairing, pairingTold } from "../../../pwa/src/state/breeding-reports.ts";
import { parseChoosing } from "../../../pwa/src/state/choosing-report.ts";
import { parseFlock } from "../../../pwa/src/state/kin-report.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { parsePairing } from "../../../pwa/src/state/pairing-report.ts";
import { parseEggsPlan } from "../../../pwa/src/state/wished-report.ts";
import { json, ModelServer } from "../sync/model-server.ts";
import { browser, killApp } from "./surroundings.ts";

afterEach(killApp);

describe("what the server works out for next season", () => {
  it("is asked for by the wishes that were made, and answered apart for each", async () => {
    const model = new ModelServer();
    const asked: string[] = [];
    const { around } = browser((input, init) => {
      const url = String(input);
      if (!url.includes("/reports/matings")) return model.fetch(input, init);
      asked.push(url.slice(url.indexOf("/reports/")));
      return Promise.resolve(
        json(200, { table: [], pens: [], breed: url.includes("pens=2") ? "two" : "any" }),
      );
    });
    await openAtStart(around);
    await askPairing({ breed: null, pens: null, hens: null, cocks: 1, apart: null, limit: 12.5 });
    expect(pairingTold.value).toMatchObject({ kind: "fresh", report: { breed: "any", mean: null } });
    await askPairing({ breed: "Marsh Speckle", pens: 2, hens: null, cocks: 1, apart: "1", limit: 6.25 });
    expect(pairingTold.value).toMatchObject({ kind: "fresh", report: { breed: "two" } });
    expect(asked).toEqual([
      "/reports/matings?cocks=1&limit=12.5",
      "/reports/matings?breed=Marsh+Speckle&pens=2&cocks=1&apart=1&limit=6.25",
    ]);
  });

  it("reads what is not there as not known, never as a figure", () => {
    const [young] = parseChoosing({ by: "score", birds: [{ bird: "a", weight: null, score: null }] }).birds;
    expect(young).toMatchObject({ massG: null, aboveG: null, passedOnG: null, score: null, keep: false });
    const plan = parseEggsPlan({ targets: [{ family: "f", store: null }], settings: [], chance: null });
    expect([plan.chance, plan.targets[0]?.store]).toEqual([null, null]);
    const whose = parseEggsPlan({
      targets: [{ parents: { words: "Eggs of" } }, { parents: null }],
      settings: [],
    });
    expect(whose.targets.map((one) => one.parents)).toEqual(["Eggs of", ""]);
    const stopped = parseEggsPlan({ targets: [{ store: { enough_on: null, by: [] } }], settings: [] });
    expect(stopped.targets[0]?.store).toEqual({ paceWeek: 0, enoughOn: null, by: [] });
    const pairing = parsePairing({
      table: [],
      pens: [],
      birds: [{ bird: "a", hatch: null, eggs: { eggs: 4 } }],
    });
    expect(pairing.birds[0]).toMatchObject({ hatch: null, eggs: { eggs: 4, hatched: 0 } });
    expect([pairing.mean, pairing.todayMean, pairing.random]).toEqual([null, null, null]);
    expect(parseFlock({ breeds: [{ breed: "b" }] }).breeds[0]).toMatchObject({ size: null, sizeSoFar: null });
  });

  it("refuses an answer of another sort", () => {
    for (const parse of [parseChoosing, parseEggsPlan, parseFlock, parsePairing]) {
      expect(() => parse({ year: 2026, families: [] })).toThrow(TypeError);
      expect(() => parse(null)).toThrow(TypeError);
    }
  });
});

describe("shares in words", () => {
  it("never round something to nothing, or what is not certain to certainty", () => {
    expect([pct(0), pct(0.0004), pct(0.0625), pct(0.25)]).toEqual(["0 %", "under 0.1 %", "6.3 %", "25 %"]);
    expect([0, 0.001, 0.5, 0.9949, 0.999, 1].map(chanceTold)).toEqual([
      "0 %",
      "under 1 %",
      "50 %",
      "99 %",
      "over 99 %",
      "100 %",
    ]);
  });
});
