import { describe, expect, it } from "vitest";
import { daySheets } from "../../../pwa/src/book/day-sheet.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { foundAgain, keptHere, movesApart } from "../../../pwa/src/book/kept-here.ts";
import { heldMs } from "../../../pwa/src/book/moments.ts";
import { trafficOf } from "../../../pwa/src/book/traffic.ts";
import { localDate } from "../../../pwa/src/trade/calendar.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface KeptVectors {
  readonly cases: readonly {
    readonly name: string;
    readonly in: { readonly entries: readonly unknown[] };
    readonly out: Readonly<Record<string, readonly [birds: number, chicks: number]>>;
    readonly found?: Readonly<Record<string, number>>;
  }[];
}

const { cases } = readVectors("kept_here") as KeptVectors;
const bookOf = (entries: readonly unknown[]) => {
  const standing = fold(entriesOf(entries));
  return { standing, dayOf: (atMs: number) => localDate(heldMs(atMs), standing.keeper.zone) };
};

describe("who is kept at the end of a day is what the server says", () => {
  it.each(cases)("$name", ({ in: { entries }, out, found: back = {} }) => {
    const { standing, dayOf } = bookOf(entries);
    const days = Object.keys(out);
    const found = days.map((day) => {
      const { birds, chicks } = keptHere(standing, day, dayOf);
      return [day, [birds.length, chicks]];
    });
    expect(Object.fromEntries(found)).toEqual(out);
    expect(daySheets(standing, days, dayOf).map(({ kept }) => kept)).toEqual(
      Object.values(out).map(([birds, chicks]) => birds + chicks),
    );
    const again = new Map<string, number>();
    for (const { atMs, n } of movesApart(standing).flatMap(foundAgain))
      again.set(dayOf(atMs), (again.get(dayOf(atMs)) ?? 0) + n);
    expect(Object.fromEntries(again)).toEqual(back);
  });
});

it("tells of no forebear known from papers alone, and once of a bird that goes by two names", () => {
  const told = (name: string) => {
    const { standing, dayOf } = bookOf(cases.find((one) => one.name.startsWith(name))?.in.entries ?? []);
    return trafficOf(standing, dayOf).map(({ on, way, n }) => [on, way, n]);
  };
  expect(told("a bought cock")).toEqual([["2026-03-10", "came", 1]]);
  expect(told("a bird under two names")).toEqual([
    ["2026-03-01", "came", 5],
    ["2026-03-20", "died", 1],
  ]);
});
