import { afterEach, describe, expect, it, vi } from "vitest";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { askSeason, season } from "../../../pwa/src/state/reports.ts";
import { parseSeason } from "../../../pwa/src/state/season-report.ts";
import { json, ModelServer } from "../sync/model-server.ts";
import { browser, killApp } from "./surroundings.ts";

const NO_RATE = { k: 0, n: 0, rate: null, low: null, high: null };
const report = (year: number) => ({
  year,
  settings: 2,
  families: [],
  total: { set: 0, fertility: NO_RATE, hatch_of_set: NO_RATE, hatch_of_fertile: NO_RATE, alive_7d: NO_RATE },
  overall_test: { p: null, verdict: "" },
  pairs: [],
  funnel: [],
  by_egg_age: [],
  by_place: [],
  by_month: [],
  titles: { headline: "Nothing to compare yet", under: "" },
  problems: [],
  computed_at: "2026-03-08T19:40:00Z",
  entries: 12,
});

afterEach(killApp);

/** A paired phone whose server answers for seasons as told. */
async function paired(answer: (year: number) => Response | Promise<Response>) {
  const model = new ModelServer();
  const { around } = browser((input, init) => {
    const year = /\/reports\/season\/(\d+)$/.exec(String(input))?.[1];
    return year ? Promise.resolve(answer(Number(year))) : model.fetch(input, init);
  });
  await openAtStart(around);
}

describe("a season's report", () => {
  it("tells when each family's eggs died, what the sums are short of, and what keeping eggs costs", () => {
    const family = { family: "f", name: "Rowan", set: 40, deaths: { early: 4, late: "many" } };
    const whole = { ...report(2026), storage: { words: "Commercial flocks lose 0.5 points a day." } };
    const closing = { set: 40, told: 38, short_by: 2, words: "2 of 40 eggs are not accounted for." };
    const told = (more: object) => parseSeason({ ...whole, families: [{ ...family, ...more }] }).families[0];
    expect(parseSeason(whole).storage).toBe("Commercial flocks lose 0.5 points a day.");
    expect(told({ closing })).toMatchObject({ deaths: { early: 4 }, closing: closing.words });
    expect(told({ closing: { ...closing, short_by: 0 } })?.closing).toBeNull();
    expect(told({})).toMatchObject({ closing: null });
  });

  it("comes from the server, and from the last answer while the server is away", async () => {
    let away = false;
    await paired((year) => (away ? Promise.reject(new TypeError("away")) : json(200, report(year))));
    await askSeason(2026);
    expect(season.value).toMatchObject({
      kind: "fresh",
      report: { year: 2026, titles: { headline: "Nothing to compare yet", funnel: "–" } },
    });
    away = true;
    await askSeason(2026);
    expect(season.value).toMatchObject({ kind: "away", report: { year: 2026 } });
    await askSeason(2025);
    expect(season.value).toEqual({ kind: "away", report: null });
  });

  it("is not shown when it comes after another one was asked for", async () => {
    let slow: (answer: Response) => void = () => undefined;
    await paired((year) =>
      year === 2025
        ? new Promise((done) => {
            slow = done;
          })
        : json(200, report(year)),
    );
    const first = askSeason(2025);
    await vi.waitFor(() => expect(season.value.kind).toBe("asking"));
    await new Promise((done) => setTimeout(done, 0));
    await askSeason(2026);
    slow(json(200, report(2025)));
    await first;
    expect(season.value).toMatchObject({ kind: "fresh", report: { year: 2026 } });
  });

  it("needs a server", async () => {
    await openAtStart(browser().around);
    expect(openDesk().sync).toBeNull();
    await askSeason(2026);
    expect(season.value).toEqual({ kind: "unpaired" });
  });
});
