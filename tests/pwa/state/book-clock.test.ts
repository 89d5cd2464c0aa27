import { afterEach, describe, expect, it } from "vitest";
import { happenedMs } from "../../../pwa/src/book/moments.ts";
import { record, undo } from "../../../pwa/src/state/actions.ts";
import { bookNow_ms, inBook, onPhone } from "../../../pwa/src/state/book-clock.ts";
import { attention, connection, correction_ms } from "../../../pwa/src/state/connection.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { addPlace, amend } from "../../../pwa/src/state/holding.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

const TWO_DAYS_MS = 2 * 86_400_000;

afterEach(killApp);

/** A phone that knew how far its clock was off when the app was closed, and starts where there is no server. */
async function openedWith(skew_ms: number | null) {
  const { around, clock } = browser();
  await openAtStart(around);
  if (skew_ms !== null) await openDesk().storage.keepSkew(skew_ms);
  await killApp();
  await openAtStart(around);
  return clock;
}

describe("a phone whose clock is two days behind", () => {
  it("tells the book's time on its screens, and says that its clock is off", async () => {
    await openedWith(TWO_DAYS_MS);
    expect(bookNow_ms()).toBe(NOW_MS + TWO_DAYS_MS);
    expect(inBook(NOW_MS - 5000)).toBe(NOW_MS + TWO_DAYS_MS - 5000);
    expect(correction_ms.value).toBe(TWO_DAYS_MS);
    expect(attention.value).toEqual([{ kind: "clock", behind_ms: TWO_DAYS_MS }]);
  });

  it("writes an act of now, and one dated by hand, so that both stand where the keeper said", async () => {
    await openedWith(TWO_DAYS_MS);
    const place = await addPlace({ name: "Loft box", role: "incubator" });
    const now = await record("turned", { place: place.id });
    expect([now.at, now.skew_ms]).toEqual([new Date(NOW_MS).toISOString(), TWO_DAYS_MS]);
    const anHourAgo = new Date(bookNow_ms() - 3_600_000);
    const earlier = await record("turned", { place: place.id }, { at: anHourAgo });
    expect(earlier.at).toBe(new Date(NOW_MS - 3_600_000).toISOString());
    expect(standing.value.heads.turned?.map((head) => head.atMs)).toEqual([
      bookNow_ms(),
      anHourAgo.getTime(),
    ]);
  });

  it("says since when entries wait by the book's clock", async () => {
    await openedWith(TWO_DAYS_MS);
    await addPlace({ name: "Loft box", role: "incubator" });
    expect(connection.value).toEqual({ kind: "only_here", n: 1, oldest_ms: NOW_MS + TWO_DAYS_MS });
  });
});

it("leaves an act where it stood when it is amended or taken back after the clock was found to be off", async () => {
  await openedWith(null);
  const place = await addPlace({ name: "Loft box", role: "incubator" });
  const turned = await record("turned", { place: place.id });
  Object.assign(openDesk(), { skew_ms: () => TWO_DAYS_MS });
  const amended = await amend(turned.id, "turned", { place: place.id, side: "x" });
  expect(amended.skew_ms).toBe(TWO_DAYS_MS);
  expect(happenedMs(amended.at, amended.skew_ms)).toBe(NOW_MS);
  expect(standing.value.heads.turned?.[0]?.atMs).toBe(NOW_MS);
  await undo(turned.id);
  expect(standing.value.heads.turned ?? []).toEqual([]);
});

it("leaves a clock alone that is off by less than two minutes, or of which nothing is known", async () => {
  await openedWith(119_000);
  expect(bookNow_ms()).toBe(NOW_MS);
  expect(attention.value).toEqual([]);
  expect(onPhone(new Date(NOW_MS), null)).toEqual(new Date(NOW_MS));
  expect(onPhone(new Date(NOW_MS), -120_000)).toEqual(new Date(NOW_MS));
  expect(onPhone(new Date(NOW_MS), -120_001).getTime()).toBe(NOW_MS + 120_001);
});
