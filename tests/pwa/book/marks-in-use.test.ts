// Who wears which mark: by a small book written out, so that each rule can be read.
import { expect, it } from "vitest";
import { fold } from "../../../pwa/src/book/fold.ts";
import { besideLot, patternsIn, wornNow } from "../../../pwa/src/book/marks-in-use.ts";
import { marksOfBirds } from "../../../pwa/src/book/marks-of-birds.ts";
import { writer } from "../storage/entries-of.ts";

function book() {
  let now_ms = Date.parse("2026-03-01T08:00:00Z");
  const { entry, ids } = writer("a", () => (now_ms += 1000));
  const family = (name: string, breed = "Marans") =>
    entry({ kind: "family", body: { name, species: "chicken", breed } }).id;
  return { entry, ids, family };
}

it("tells the living of one breed and season from all others", () => {
  const { entry, ids, family } = book();
  const [rowan, hazel, other] = [family("Rowan"), family("Hazel"), family("Silver", "Sebright")];
  const lots = Object.fromEntries(
    ["rowan", "hazel", "other", "old", "dead"].map((name) => [name, ids.next()]),
  ) as Record<"rowan" | "hazel" | "other" | "old" | "dead", string>;
  const set = (set_at: string, sown: [string, string][]) =>
    entry({
      kind: "set",
      body: {
        place: "p",
        species: "chicken",
        set_at,
        lots: sown.map(([lot, of]) => ({ lot, family: of, n: 6 })),
      },
    });
  const move = (lot: string, to: string, n: number) =>
    entry({ kind: "moved", body: { moves: [{ lot, from: to === "died" ? "hatched" : "set", to, n }] } });
  const mark = (lot: string, webs: string[], more = {}) =>
    entry({ kind: "marked", body: { lot, webs, ...more } });
  const families = [
    entry({ id: rowan, kind: "family", body: { name: "Rowan", species: "chicken", breed: "Marans" } }),
    entry({ id: hazel, kind: "family", body: { name: "Hazel", species: "chicken", breed: " marans" } }),
    entry({ id: other, kind: "family", body: { name: "Silver", species: "chicken", breed: "Sebright" } }),
  ];
  const first = mark(lots.hazel, ["RI"], { n: 2 });
  const standing = fold([
    ...families,
    set("2026-02-01T08:00:00Z", [
      [lots.rowan, rowan],
      [lots.hazel, hazel],
      [lots.other, other],
      [lots.dead, hazel],
    ]),
    set("2025-02-01T08:00:00Z", [[lots.old, hazel]]),
    ...Object.values(lots).map((lot) => move(lot, "hatched", 4)),
    move(lots.dead, "died", 4),
    mark(lots.rowan, ["LO"]),
    first,
    mark(lots.hazel, ["LO", "RI"], { n: 2, replaces: first.id }),
    mark(lots.hazel, ["LO", "RI"], { n: 9, recheck: true }),
    mark(lots.other, ["RO"]),
    mark(lots.old, ["LI"]),
    mark(lots.dead, ["LI", "RI"]),
    entry({ kind: "bird", body: { sex: "male", family: hazel, webs: ["RO"], hatched_on: "2026-01-05" } }),
    entry({
      kind: "bird",
      body: { sex: "male", family: hazel, webs: ["LI", "RO"], hatched_on: "2024-05-05" },
    }),
  ]);
  const rowans = standing.lots.get(lots.rowan);
  if (!rowans) throw new Error("no such batch");
  const beside = besideLot(wornNow(standing), standing, rowans);
  expect(beside.map(({ webs, n }) => [webs.join("+"), n])).toEqual([
    ["LO+RI", 2],
    ["RO", 1],
  ]);
  expect(patternsIn(beside)).toEqual([["LO", "RI"], ["RO"]]);
});

it("knows a mark as replaced whichever of its corrections the new one names", () => {
  const { entry, ids, family } = book();
  const [rowan, lot] = [family("Rowan"), ids.next()];
  const ring = (size: string) => ({ kind: "ring", colour: "blue", leg: "left", text: size });
  const given = entry({ kind: "marked", body: { lot, tag: ring("4"), n: 1 } });
  const amended = entry({ kind: "marked", body: { lot, tag: ring("5"), n: 1 }, amends: given.id });
  const standing = fold([
    entry({ id: rowan, kind: "family", body: { name: "Rowan", species: "chicken", breed: "Marans" } }),
    entry({ kind: "came", body: { lot, n: 2, family: rowan, on: "2026-03-01", how: "bought" } }),
    given,
    amended,
    entry({ kind: "marked", body: { lot, tag: ring("9"), n: 1, replaces: amended.id } }),
    entry({ kind: "marked", body: { lot, tag: ring("6"), n: 1 }, amends: amended.id }),
  ]);
  expect(wornNow(standing).map(({ tag, n }) => [tag?.text, n])).toEqual([["9", 1]]);
});

it("counts a bird that left no more, one lent still, and one that came back again", () => {
  const { entry, family } = book();
  const rowan = entry({
    id: family("Rowan"),
    kind: "family",
    body: { name: "Rowan", species: "chicken", breed: "Marans" },
  });
  const bird = (text: string) =>
    entry({ kind: "bird", body: { sex: "female", family: rowan.id, tags: [{ kind: "ring", text }] } });
  const [here, sold, lent, back, ringed] = ["1", "2", "3", "4", "5"].map(bird);
  const left = (of: { id: string } | undefined, how: string) =>
    entry({ kind: "left", body: { bird: of?.id, on: "2026-02-01", how } });
  const birds = [here, sold, lent, back, ringed].filter((one) => one !== undefined);
  const standing = fold([
    rowan,
    ...birds,
    left(sold, "sold"),
    left(lent, "lent"),
    left(back, "given"),
    entry({ kind: "came", body: { bird: back?.id, on: "2026-03-01", how: "returned" } }),
    entry({
      kind: "marked",
      body: { bird: ringed?.id, tag: { kind: "ring", text: "50" }, replaces: ringed?.id },
    }),
  ]);
  expect(wornNow(standing).map(({ tag }) => tag?.text)).toEqual(["1", "3", "4", "50"]);
});

it("tells what one bird wears by the entry that says so, without what is lost", () => {
  const { entry, family } = book();
  const rowan = family("Rowan");
  const ring = (text: string) => ({ kind: "ring", colour: "blue", leg: "left", text });
  const bird = entry({
    kind: "bird",
    body: { sex: "female", family: rowan, tags: [ring("1"), ring("2")], webs: ["LO"] },
  });
  const also = entry({ kind: "bird", body: { sex: "unknown" } });
  const same = entry({ kind: "same", body: { bird: also.id, as: bird.id } });
  const mark = (more: object, of = bird.id) => entry({ kind: "marked", body: { bird: of, ...more } });
  const wing = mark({ tag: { kind: "wing", text: "W7" } }, also.id);
  const second = mark({ tag: ring("3"), replaces: bird.id });
  const third = mark({ tag: ring("4"), replaces: second.id });
  const again = mark({ webs: ["LO"], recheck: true });
  const told = (...more: (typeof bird)[]) => {
    const worn = marksOfBirds(fold([bird, also, same, wing, ...more])).get(bird.id) ?? [];
    return worn.map(({ entry: of, first, webs, tag }) => [of, first, webs.join("+") || (tag?.text ?? "")]);
  };
  const wings = [wing.id, false, "W7"];
  const webs = [bird.id, true, "LO"];
  expect(told()).toEqual([webs, [bird.id, true, "1"], [bird.id, true, "2"], wings]);
  expect(told(second)).toEqual([webs, wings, [second.id, false, "3"]]);
  expect(told(second, third, again)).toEqual([webs, wings, [third.id, false, "4"]]);
});
