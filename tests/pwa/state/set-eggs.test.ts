// Eggs gathered, and a setting that ran for days before it came into the book.
import { beforeEach, expect, it } from "vitest";
import { eggStore } from "../../../pwa/src/book/egg-store.ts";
import { lotOutcome } from "../../../pwa/src/book/rates.ts";
import { undo } from "../../../pwa/src/state/actions.ts";
import { eggsLeave, gatherEggs } from "../../../pwa/src/state/eggs.ts";
import { addPlace, nameFamily } from "../../../pwa/src/state/holding.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { startSetting } from "../../../pwa/src/state/set-eggs.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { DAY_MS } from "../../../pwa/src/trade/calendar.ts";
import { rateOf } from "../../../pwa/src/trade/proportions.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

let family = "";
let place = "";

beforeEach(async () => {
  await killApp();
  await openAtStart(browser().around);
  family = (await nameFamily({ name: "Rowan", species: "chicken", breed: "Marans" })).id;
  place = (await addPlace({ name: "Loft box", role: "incubator" })).id;
});

const stored = () => eggStore(standing.value, NOW_MS);

it("a setting entered late brings what was seen: 2 clear, 1 blood ring, 9 live on day 8, locked on day 18", async () => {
  const set_at = new Date(NOW_MS - 19 * DAY_MS);
  const { id, kind } = await startSetting({
    place,
    species: "chicken",
    set_at,
    lots: [{ family, n: 12, found: { clear: 2, blood_ring: 1, quitter: 0 } }],
    candledDay: 8,
    lockedDay: 18,
  });
  expect(kind).toBe("set");
  const setting = standing.value.settings.get(id);
  const lot = standing.value.lots.get(setting?.lots[0] ?? "");
  if (!setting || !lot) throw new Error("no setting");
  expect(Object.fromEntries(lot.stages)).toEqual({ blood_ring: 1, clear: 2, locked: 9 });
  expect(lot.looks).toMatchObject([
    { what: "candled", day: 8, live: 9, atMs: set_at.getTime() + 8 * DAY_MS },
  ]);
  expect(setting.lockedAtMs).toBe(set_at.getTime() + 18 * DAY_MS);
  expect(lotOutcome(lot, setting, NOW_MS).fertility).toMatchObject(rateOf(10, 12));
  expect(standing.value.problems).toEqual([]);
});

it("what was found goes with the candling: where there was none after all, every egg is locked down", async () => {
  const { id } = await startSetting({
    place,
    species: "chicken",
    set_at: new Date(NOW_MS - 19 * DAY_MS),
    lots: [{ family, n: 12, found: { clear: 2, blood_ring: 1 } }],
    lockedDay: 18,
  });
  const lot = standing.value.lots.get(standing.value.settings.get(id)?.lots[0] ?? "");
  expect([Object.fromEntries(lot?.stages ?? []), lot?.looks]).toEqual([{ locked: 12 }, []]);
  expect(standing.value.problems).toEqual([]);
});

it("a setting of today has nothing seen", async () => {
  const lots = [{ family, n: 12, found: {} }];
  const { id } = await startSetting({ place, species: "chicken", set_at: new Date(NOW_MS), lots });
  const lot = standing.value.lots.get(standing.value.settings.get(id)?.lots[0] ?? "");
  expect([Object.fromEntries(lot?.stages ?? []), lot?.looks]).toEqual([{ set: 12 }, []]);
  expect(standing.value.heads.set?.[0]?.body.lots[0]).not.toHaveProperty("found");
});

it("a round of several families is one act, without those of which nothing lay there", async () => {
  const hazel = (await nameFamily({ name: "Hazel", species: "chicken", breed: "Marans" })).id;
  const written = await gatherEggs("2026-03-07", [
    { family, n: 5, kept: 4 },
    { family: hazel, n: 0, kept: 0 },
  ]);
  expect(written.map((entry) => entry.body)).toEqual([{ family, on: "2026-03-07", n: 5, kept: 4 }]);
  expect(await gatherEggs("2026-03-07", [])).toEqual([]);
  expect(stored()).toMatchObject({ n: 4, families: [{ family, oldestDays: 1 }] });
});

it("what leaves is gone from the store, and is back when that is taken back", async () => {
  await gatherEggs("2026-03-07", [{ family, n: 5, kept: 5 }]);
  const [left] = await eggsLeave({ family, on: "2026-03-08", n: 2, how: "sold", to: "A. Moss" });
  expect(stored().n).toBe(3);
  await undo(left?.id ?? "");
  expect(stored().n).toBe(5);
});
