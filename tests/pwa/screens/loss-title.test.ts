import { expect, it } from "vitest";
import { weigh as words } from "../../../pwa/src/app/words/weigh.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { airOf } from "../../../pwa/src/book/readings.ts";
import { lossOutlook, weighingsOf } from "../../../pwa/src/book/weighings.ts";
import { lossUnder } from "../../../pwa/src/screens/loss-title.ts";
import { entriesOf, idOf, written } from "../book/entries-of.ts";

const AT = Date.UTC(2026, 2, 1, 8);
const DAY = 86_400_000;

/** What stands under the title on that day; weighed: whether a tray was, once; lockedOn: the day of lockdown done. */
function under(day: number, weighed: boolean, lockedOn = 99): string {
  const lots = [{ lot: "01950000-0000-7000-9000-000000000001", family: idOf(3), n: 12 }];
  const tray = { setting: idOf(4), n: 12, gross_g: 1000, tare_g: 280 };
  const standing = fold(
    entriesOf([
      written(1, "keeper", { holding: "Gorse Bank", zone: "UTC", temperature: "C", mass: "g" }, AT),
      written(2, "place", { name: "Loft box", role: "incubator" }, AT),
      written(3, "family", { name: "Rowan", species: "chicken", breed: "Sussex" }, AT),
      written(4, "set", { place: idOf(2), species: "chicken", set_at: new Date(AT).toISOString(), lots }, AT),
      ...(weighed ? [written(5, "eggs_weighed", tray, AT + DAY)] : []),
      ...(lockedOn <= day ? [written(6, "locked", { setting: idOf(4) }, AT + lockedOn * DAY)] : []),
    ]),
  );
  const setting = standing.settings.get(idOf(4));
  if (!setting) throw new Error("no setting");
  const found = weighingsOf(standing, setting);
  const air = airOf(standing, setting, []);
  return lossUnder(found, lossOutlook(setting, found, air, AT + day * DAY));
}

// Lockdown of chickens is on day 18; three days must remain (weight_loss.json, days_left).
it("asks for a weighing while one can follow, and for none from then on", () => {
  expect([under(2, false), under(2, true)]).toEqual([words.noneRemedy, words.onceRemedy]);
  expect(under(15, true)).toBe(words.onceRemedy);
  expect([under(16, true), under(16, false), under(20, true)]).toEqual([words.over, words.over, words.over]);
  expect(under(14, true, 13)).toBe(words.over);
});
