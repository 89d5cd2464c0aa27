// @vitest-environment happy-dom
// After past hatches came from a spreadsheet: what is ticked, and which machine the first own eggs are set in.
import { render } from "preact";
import { beforeEach, expect, it, vi } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import type { Standing } from "../../../pwa/src/book/standing.ts";
import { FirstHour } from "../../../pwa/src/screens/first-hour.tsx";
import { usualMachine } from "../../../pwa/src/screens/set-machine.ts";
import { entriesOf, written } from "../book/entries-of.ts";

const held = vi.hoisted(() => ({ value: undefined as unknown }));
vi.mock("../../../pwa/src/state/standing.ts", () => ({ standing: held }));

const UNNAMED = "00dc7289-3600-7abc-8000-000000000001";
const NAMED = "00dc6d62-da00-7abc-8000-000000000002";
const PAST = "01955193-de00-7abc-8000-000000000003";
const at = Date.UTC(2026, 1, 1);

const place = (n: number, name: string) => written(n, "place", { name, role: "incubator" }, at);
const set = (n: number, where: string, day: number) =>
  written(
    n,
    "set",
    {
      place: where,
      species: "chicken",
      set_at: `2025-03-${String(day).padStart(2, "0")}T12:00:00.000Z`,
      lots: [{ lot: `lot ${n}`, family: "f", n: 12 }],
    },
    at,
  );
const imported = (id: string, entry: object) => ({ ...entry, id, device: "import" });
const own = place(1, "Attic box");
const past = [imported(UNNAMED, place(9, "Incubator before this book")), imported(PAST, set(9, UNNAMED, 20))];
const book = (...entries: readonly object[]): Standing => fold(entriesOf(entries));

beforeEach(() => render(null, document.body));

it("does not offer the machine that stands for those of past hatches while there is another", () => {
  expect(usualMachine(book(...past))).toBeUndefined();
  expect(usualMachine(book(...past, own))).toBe(own.id);
  const named = imported(NAMED, place(9, "Loft box"));
  expect(usualMachine(book(...past, named))).toBe(NAMED);
  expect(usualMachine(book(...past, named, own))).toBe(own.id);
});

it("offers the machine of the last eggs set in the app, whatever a spreadsheet brought of later days", () => {
  const second = place(2, "Shed box");
  const first = [own, second, set(3, second.id, 1)];
  expect(usualMachine(book(...first, ...past))).toBe(second.id);
  expect(usualMachine(book(...first, set(4, own.id, 2), ...past))).toBe(own.id);
  expect(usualMachine(book(...first, set(4, UNNAMED, 2), ...past))).toBe(second.id);
});

it("ticks eggs set only where they were set in the app", () => {
  const ways = () => [...document.querySelectorAll("ol a")].map((one) => one.getAttribute("href"));
  held.value = book(own, ...past);
  render(<FirstHour />, document.body);
  expect(ways()).toContain("/rooms/set");
  expect(ways()).not.toContain("/phone/tables");
  render(null, document.body);
  held.value = book(own, ...past, set(3, own.id, 1));
  render(<FirstHour />, document.body);
  expect(ways()).not.toContain("/rooms/set");
});
