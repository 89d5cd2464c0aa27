// @vitest-environment happy-dom
import { afterAll, expect, it } from "vitest";
import { HenSelect } from "../../../pwa/src/screens/place-form.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

const offered = () => [...document.querySelectorAll("option")].map((one) => one.textContent);
const chosen = () => document.querySelector("select")?.selectedOptions[0]?.textContent;

it("a hen can be chosen while she is here: lent and back she can, gone she cannot unless she stands there already", async () => {
  const { rowan, hazel } = await holdingAt(3);
  const hen = async (name: string, family = rowan) =>
    (await record("bird", { sex: "female", family, name })).id;
  const [alba, , cleo] = [await hen("Alba"), await hen("Bella"), await hen("Cleo"), await hen("Dora", hazel)];
  await record("left", { bird: alba, on: "2026-02-01", how: "lent" });
  await record("came", { bird: alba, on: "2026-03-01", how: "returned" });
  await record("left", { bird: cleo, on: "2026-03-01", how: "sold" });
  const select = (value: string) => (
    <HenSelect label="Hen" value={value} none="Not known" family={rowan} onChoose={() => undefined} />
  );
  show(select(""));
  await settle();
  expect(offered()).toEqual(["Not known", "Alba", "Bella"]);
  show(select(cleo));
  await settle();
  expect(chosen()).toBe("Cleo");
});
