// @vitest-environment happy-dom
// Each pen of a plan, from its link to the entry in the book.
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { penStays } from "../../../pwa/src/book/pen-stays.ts";
import { PairingByHand } from "../../../pwa/src/screens/pairing-by-hand.tsx";
import { PairingPens } from "../../../pwa/src/screens/pairing-pens.tsx";
import { PensScreen } from "../../../pwa/src/screens/pens.tsx";
import { record } from "../../../pwa/src/state/actions.ts";
import { parsePairing } from "../../../pwa/src/state/pairing-report.ts";
import { standing } from "../../../pwa/src/state/standing.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show, tap } from "./holding.ts";

afterAll(killApp);

const penned = () => penStays(standing.value).map(({ body }) => body);
const links = () => [...document.querySelectorAll<HTMLAnchorElement>("a.press")].map((one) => one.href);

async function follow(href: string) {
  const asked = new URL(href).searchParams;
  show(<PensScreen key={href} family={asked.get("family")} birds={asked.get("birds")} />);
  await settle();
}

describe("the pens of a plan", () => {
  let birds: Record<"rowanCock" | "hazelCock" | "rowanHen" | "hazelHen", string>;
  let holding: Awaited<ReturnType<typeof holdingAt>>;
  beforeEach(async () => {
    holding = await holdingAt(5);
    const bird = async (sex: "male" | "female", family: string) => (await record("bird", { sex, family })).id;
    birds = {
      rowanCock: await bird("male", holding.rowan),
      hazelCock: await bird("male", holding.hazel),
      rowanHen: await bird("female", holding.rowan),
      hazelHen: await bird("female", holding.hazel),
    };
  });

  const planned = (pens: readonly unknown[]) => {
    const report = parsePairing({ table: [], pens });
    show(<PairingPens title="The pens" report={report} pens={report.pens} />);
    return links();
  };

  it("are each written to the family of their hens", async () => {
    const plan = [
      { family: holding.rowan, sires: [birds.hazelCock], dams: [birds.rowanHen] },
      { family: holding.hazel, sires: [birds.rowanCock], dams: [birds.hazelHen] },
    ];
    const found = planned(plan);
    expect(found).toHaveLength(2);
    for (const href of found) {
      await follow(href);
      await tap("Write the pen down");
    }
    expect(
      penned().map(({ family, sires, dams }) => ({
        family,
        sires: sires.map(({ bird }) => bird),
        dams: dams.map(({ bird }) => bird),
      })),
    ).toEqual(expect.arrayContaining(plan));
    expect(penned()).toHaveLength(2);
  });

  it("name the family of their hens, and that of their cocks where it is another", () => {
    const { rowan, hazel } = holding;
    const { rowanCock, hazelCock, rowanHen, hazelHen } = birds;
    const report = parsePairing({
      table: [],
      pens: [
        { sires: [hazelCock], dams: [rowanHen] },
        { sires: [rowanCock], dams: [rowanHen, hazelHen] },
        { sires: [rowanCock, hazelCock], dams: [hazelHen] },
        { sires: [rowanCock], dams: [rowanHen] },
      ],
      birds: [
        { bird: rowanCock, label: "R1", family: rowan },
        { bird: hazelCock, label: "H1", family: hazel },
        { bird: rowanHen, label: "R2", family: rowan },
        { bird: hazelHen, label: "H2", family: hazel },
      ],
    });
    show(<PairingPens title="The pens" report={report} pens={report.pens} />);
    expect([...document.querySelectorAll("h3")].map((one) => one.textContent)).toEqual([
      "Pen 1, Rowan's hens: H1 of Hazel",
      "Pen 2: R1 of Rowan",
      "Pen 3, Hazel's hens: R1, H1",
      "Pen 4, Rowan's hens: R1",
    ]);
    show(<PairingByHand report={report} of="" />);
    expect(document.querySelector("h3")?.textContent).toBe("Pen 1, Rowan's hens: H1 of Hazel");
  });

  it("that stand already are not offered to be put together, with a place or without", () => {
    const report = parsePairing({ table: [], pens: [], today: [{ sires: ["a"], dams: ["b"] }] });
    show(<PairingPens title="Today" report={report} pens={report.today} stand />);
    expect(document.querySelector("h3")?.textContent).toBe("Pen 1");
    expect(links()).toEqual([]);
  });

  it("ask for the family where their hens are of several", async () => {
    const [href = ""] = planned([
      { family: null, sires: [birds.hazelCock], dams: [birds.rowanHen, birds.hazelHen] },
    ]);
    await follow(href);
    const chosen = document.querySelector<HTMLSelectElement>("select");
    expect(chosen?.value).toBe("");
    await tap("Write the pen down");
    expect(document.querySelector("[role=alert]")?.textContent).toContain("Choose the family");
    expect(penned()).toEqual([]);
    if (chosen) chosen.value = holding.hazel;
    chosen?.dispatchEvent(new Event("change", { bubbles: true }));
    await settle();
    await tap("Write the pen down");
    expect(penned().map(({ family }) => family)).toEqual([holding.hazel]);
  });
});
