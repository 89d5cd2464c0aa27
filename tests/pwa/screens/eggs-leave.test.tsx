// @vitest-environment happy-dom
import { afterAll, expect, it } from "vitest";
import { eggStore } from "../../../pwa/src/book/egg-store.ts";
import { EggsLeave } from "../../../pwa/src/screens/eggs-leave.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp, NOW_MS } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

afterAll(killApp);

it("writes down as many as it shows, also after another family was chosen that has fewer", async () => {
  const { rowan, hazel } = await holdingAt(3);
  await record("gathered", { family: rowan, on: "2026-03-07", n: 10, kept: 10 });
  await record("gathered", { family: hazel, on: "2026-03-07", n: 3, kept: 3 });
  let said = "";
  const store = eggStore(standing.value, NOW_MS);
  show(<EggsLeave store={store} onSaved={(_, words) => (said = words)} />);
  await settle();
  const choose = document.querySelector("select");
  if (!choose) throw new Error("no family to choose");
  choose.value = rowan;
  choose.dispatchEvent(new Event("change", { bubbles: true }));
  await settle();
  for (let more = 0; more < 7; more += 1) await tap("One more");
  choose.value = hazel;
  choose.dispatchEvent(new Event("change", { bubbles: true }));
  await settle();
  expect(document.querySelector<HTMLInputElement>(".eggs-field input")?.value).toBe("3");
  await tap("Save");
  expect(standing.value.heads.eggs_out?.map(({ body }) => [body.family, body.n])).toEqual([[hazel, 3]]);
  expect(said).toContain("3");
  expect(standing.value.problems).toEqual([]);
});

it("says of eggs laid while a hen of theirs was treated that they are not for eating, unless they are thrown away", async () => {
  const { rowan, hazel } = await holdingAt(3);
  const hen = (await record("bird", { sex: "female", family: rowan, name: "Meg" })).id;
  const days = { from: "2026-03-01", until: "2026-03-02", no_eggs_until: "2026-03-06" };
  await record("treated", { bird: hen, product: "Drops", ...days });
  await record("gathered", { family: rowan, on: "2026-03-06", n: 2, kept: 2 });
  await record("gathered", { family: hazel, on: "2026-03-06", n: 3, kept: 3 });
  show(<EggsLeave store={eggStore(standing.value, NOW_MS)} onSaved={() => undefined} />);
  const choose = async (family: string) => {
    await settle();
    const select = document.querySelector("select");
    if (!select) throw new Error("no family to choose");
    select.value = family;
    select.dispatchEvent(new Event("change", { bubbles: true }));
    await settle();
    return [...document.querySelectorAll(".notice.watch b")].map((one) => one.textContent);
  };
  const told = ["Eggs of Meg laid by Mar 6 not for eating, after Drops."];
  expect(await choose(rowan)).toEqual(told);
  expect(await choose(hazel)).toEqual([]);
  await tap("Sold");
  expect(await choose(rowan)).toEqual(told);
  await tap("Thrown away");
  expect(await choose(rowan)).toEqual([]);
});
