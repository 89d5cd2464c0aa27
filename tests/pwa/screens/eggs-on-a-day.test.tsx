// @vitest-environment happy-dom
import { afterAll, describe, expect, it } from "vitest";
import { eggStore } from "../../../pwa/src/book/egg-store.ts";
import { EggsOnADay, storeOn } from "../../../pwa/src/screens/eggs-on-a-day.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

const DAY_MS = 86_400_000;
const day = (ago: number) => new Date(NOW_MS - ago * DAY_MS).toISOString().slice(0, 10);

/** Rowan kept 5 nine days ago, 6 four days ago, 3 yesterday; Hazel 4 on each of the days 0 to 6, all given away. */
async function gathered() {
  const { rowan, hazel } = await holdingAt(30);
  for (const [ago, n] of [
    [9, 5],
    [4, 6],
    [1, 3],
  ] as const)
    await record("gathered", { family: rowan, on: day(ago), n, kept: n });
  for (let ago = 0; ago < 7; ago += 1)
    await record("gathered", { family: hazel, on: day(ago), n: 4, kept: 4 });
  await record("eggs_out", { family: hazel, on: day(0), n: 28, how: "given" });
  const store = eggStore(standing.value, NOW_MS);
  const of = (family: string) => store.families.find((one) => one.family === family);
  return { store, rowan: of(rowan), hazel: of(hazel) };
}

// storage.json: eggs kept over 7 days hatch worse, over 10 they are better not set (Illinois Extension).
describe("what can be set on a day", () => {
  it("is what lies there now by its age then, and what the hens' pace adds", async () => {
    const { rowan, hazel } = await gathered();
    if (!rowan || !hazel) throw new Error("no eggs");
    // today: 9, 4 and 1 day old; 9 of the last seven days
    expect(storeOn(rowan, 0)).toEqual({ n: 14, fresh: 9, fit: 14, more: 0 });
    // in 3 days: 12, 7 and 4 days old; 9 eggs in 7 days make 3.9 in three
    expect(storeOn(rowan, 3)).toEqual({ n: 14, fresh: 9, fit: 9, more: 4 });
    // in 4 days: 13, 8 and 5
    expect(storeOn(rowan, 4)).toEqual({ n: 14, fresh: 3, fit: 9, more: 5 });
    expect(storeOn(rowan, 10)).toEqual({ n: 14, fresh: 0, fit: 0, more: 13 });
    // a day gone by adds nothing, and eggs are not younger than they are laid
    expect(storeOn(rowan, -1).more).toBe(0);
    expect(storeOn(hazel, 2)).toEqual({ n: 0, fresh: 0, fit: 0, more: 8 });
  });

  it("is told for three days ahead until another day is chosen, of every family that lays", async () => {
    const { store } = await gathered();
    show(<EggsOnADay store={store} />);
    await settle();
    const field = document.querySelector<HTMLInputElement>("#settable-on");
    if (!field) throw new Error("no field for the day");
    const rows = () => [...document.querySelectorAll(".rows li")].map((row) => row.textContent);
    expect([field.value, field.min]).toEqual([day(-3), day(0)]);
    expect(rows()).toEqual([
      "Rowan14 of those in store now; 9 of them will be no older than 7 days." +
        "At the pace of the last seven days about 4 more by then.Why? eggs of Rowan by then" +
        "9 kept in seven days / 7 × 3 days: our reckoning.",
      "Hazel0 of those in store now; 0 of them will be no older than 7 days." +
        "At the pace of the last seven days about 12 more by then.Why? eggs of Hazel by then" +
        "28 kept in seven days / 7 × 3 days: our reckoning.",
    ]);
    field.value = day(-4);
    field.dispatchEvent(new Event("input", { bubbles: true }));
    await settle();
    expect(rows()[0]).toContain("3 of them will be no older than 7 days.");
    field.value = "";
    field.dispatchEvent(new Event("input", { bubbles: true }));
    await settle();
    expect(rows()[0]).toBe("Rowan14 of those in store now; 9 of them will be no older than 7 days.");
  });
});
