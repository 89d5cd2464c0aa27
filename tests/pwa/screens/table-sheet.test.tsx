// @vitest-environment happy-dom
// A sheet of a keeper's spreadsheet as it is shown before it is taken in, and what a choice tells the server.
import { render } from "preact";
import { act } from "preact/test-utils";
import { beforeEach, describe, expect, it } from "vitest";
import { BadRows } from "../../../pwa/src/screens/table-bad-rows.tsx";
import { TableSheet } from "../../../pwa/src/screens/table-sheet.tsx";
import { Unsaid } from "../../../pwa/src/screens/table-unsaid.tsx";
import type { BadRow, SheetTold, TableRead } from "../../../pwa/src/state/tables.ts";

const TABLE: TableRead = {
  sheet: "Counts",
  kind: "hatches",
  rows: 2,
  headingRow: 3,
  columns: { set_on: "When", eggs: "Put in" },
  others: ["Moon"],
  fields: ["set_on", "family", "eggs", "hatched"],
  needed: ["set_on", "family", "eggs", "hatched"],
  missing: [],
  dates: "dmy",
  datesOpen: ["dmy", "mdy"],
  days: [{ number: 4, whose: "Rowan", field: "set_on", written: "03/04/2025", on: "2025-04-03" }],
};

const page = () => document.body.textContent ?? "";
const labelled = (words: string) => {
  const label = [...document.querySelectorAll("label")].find((one) => one.textContent === words);
  return document.getElementById(label?.htmlFor ?? "") as HTMLSelectElement | null;
};
const choose = (words: string, value: string) =>
  act(() => {
    const field = labelled(words);
    if (!field) throw new Error(`nothing is labelled ${words}`);
    field.value = value;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  });

let told: SheetTold[] = [];
const show = (table: TableRead, before?: SheetTold) =>
  act(() =>
    render(<TableSheet table={table} told={before} onTell={(one) => told.push(one)} />, document.body),
  );

beforeEach(() => {
  render(null, document.body);
  told = [];
});

describe("a sheet", () => {
  it("shows its days in full, and asks their order only where it is open", () => {
    show(TABLE);
    expect(page()).toContain("Counts: 2 rows, read as past hatches");
    expect(page()).toContain("Its headings stand in row 3.");
    expect(document.querySelector("tbody td b")?.textContent).toMatch(/^(3 April|April 3,) 2025$/);
    choose("How “Counts” writes its days", "mdy");
    expect(told).toEqual([{ dates: "mdy" }]);
    show({ ...TABLE, datesOpen: ["dmy"] });
    expect(labelled("How “Counts” writes its days")).toBeNull();
  });

  it("says that its days contradict each other until an order is chosen", () => {
    show({ ...TABLE, dates: null, datesOpen: ["dmy", "mdy", "ymd"] });
    expect(labelled("How “Counts” writes its days")?.value).toBe("");
    expect(page()).toContain("some only in another");
  });

  it("keeps a column that was set aside so, when the next is chosen", () => {
    show(TABLE, { columns: { hatched: "" } });
    choose("family", "Moon");
    expect(told).toEqual([
      { kind: "hatches", columns: { hatched: "", set_on: "When", eggs: "Put in", family: "Moon" } },
    ]);
  });

  it("can be said to be nothing for this book, and unfolds its columns where one is missing", () => {
    show(TABLE);
    expect(document.querySelector("details")?.open).toBe(false);
    choose("What “Counts” holds", "none");
    expect(told).toEqual([{ kind: "none", columns: {} }]);
    render(null, document.body);
    show({ ...TABLE, missing: ["family"] });
    expect(document.querySelector("details")?.open).toBe(true);
    show(TABLE);
    expect(document.querySelector("details")?.open).toBe(true);
  });
});

describe("what is wrong with rows", () => {
  const row = (number: number, more: object = {}): BadRow => ({
    sheet: "Counts",
    number,
    field: "eggs",
    words: `words ${number}`,
    taken: false,
    asRead: false,
    ...more,
  });

  it("is told apart from what was read in, and how", () => {
    const rows = [
      row(2),
      row(3, { taken: true }),
      row(4, { taken: true, asRead: true }),
      row(0, { asRead: true }),
    ];
    act(() => render(<BadRows rows={rows} />, document.body));
    const [wrong, known] = [...document.querySelectorAll("section")].map((one) => one.textContent ?? "");
    expect(wrong).toContain("2 rows to put right");
    expect(wrong).toMatch(/words 3 The row is read in without it/);
    expect(wrong).not.toMatch(/words 2 The row is read in/);
    expect(known).toContain("2 things to know");
    expect(known).not.toContain("without it");
  });
});

describe("species and breed", () => {
  it("are asked where rows do not say them, the breed once it is typed whole", () => {
    const changes: object[] = [];
    const sent = { name: "a.csv", base64: "", breed: "Marsh" };
    act(() =>
      render(
        <Unsaid asked={["breed", "species"]} sent={sent} onChange={(one) => changes.push(one)} />,
        document.body,
      ),
    );
    choose("Species of rows that say none", "duck");
    expect(changes).toEqual([{ species: "duck" }]);
    expect(labelled("Breed of rows that say none")?.value).toBe("Marsh");
    act(() => render(<Unsaid asked={["breed"]} sent={sent} onChange={() => undefined} />, document.body));
    expect(labelled("Species of rows that say none")).toBeNull();
  });
});
