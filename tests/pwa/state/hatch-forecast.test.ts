import { afterEach, describe, expect, it } from "vitest";
import { askForecast, forecastIn, hatchForecast } from "../../../pwa/src/state/hatch-forecast.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { json, ModelServer } from "../sync/model-server.ts";
import { browser, killApp } from "./surroundings.ts";

const ID = "01950000-0000-7000-8000-000000000005";
const FORECAST = {
  from: "2026-03-21T20:00:00Z",
  to: "2026-03-23T02:00:00Z",
  hatches: 2,
  shift_h: -5.5,
  words: "...",
};

afterEach(killApp);

describe("a hatch foretold", () => {
  it("comes from the server and stays, with its date, while the server is away", async () => {
    let away = false;
    const model = new ModelServer();
    const { around } = browser((input, init) => {
      if (!String(input).includes("/reports/setting/")) return model.fetch(input, init);
      return away
        ? Promise.reject(new TypeError("away"))
        : Promise.resolve(json(200, { forecast: FORECAST }));
    });
    await openAtStart(around);
    await askForecast(ID);
    const first = hatchForecast.value;
    expect(first).toMatchObject({ setting: ID, fromMs: Date.UTC(2026, 2, 21, 20), hatches: 2, shiftH: -5.5 });
    away = true;
    hatchForecast.value = null;
    await askForecast(ID);
    expect(hatchForecast.value).toEqual(first);
    await askForecast("01950000-0000-7000-8000-000000000006");
    expect(hatchForecast.value).toBeNull();
  });

  it("says nothing of what earlier hatches moved where the report does not", () => {
    const { shift_h: _, ...older } = FORECAST;
    expect(forecastIn({ forecast: older }, ID, 0)).toMatchObject({ hatches: 2, shiftH: null });
  });

  it.each([null, "", {}, { forecast: null }, { forecast: { from: "soon", to: "later", hatches: 1 } }])(
    "is none where the report says none or is of another form: %j",
    (report) => expect(forecastIn(report, ID, 0)).toBeNull(),
  );
});
