import { describe, expect, it } from "vitest";
import { leftWithinSevenDays } from "../../../pwa/src/book/first-week.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { goneBirds } from "../../../pwa/src/book/gone-birds.ts";
import { heldMs } from "../../../pwa/src/book/moments.ts";
import { addsUp, canBe, mostLost, movesOf, stagesOf, tiedTo } from "../../../pwa/src/book/tied.ts";
import { localDate } from "../../../pwa/src/trade/calendar.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";

interface TiedVectors {
  cases: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
}

describe("batches that chicks of unknown family tie together are the server's", () => {
  const { cases } = readVectors("tied") as TiedVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    const standing = fold(entriesOf(asked.entries));
    const nowMs = Date.parse(asked.now);
    const birds = goneBirds(standing, localDate(heldMs(nowMs), standing.keeper.zone));
    const found = [...standing.lots.values()].map((lot) => {
      const tied = tiedTo(standing, lot);
      const { left, of } = leftWithinSevenDays(movesOf(tied), nowMs);
      const gone = (birds.get(lot.id) ?? []).map(({ how }) => how);
      const told = {
        with: tied.lots.map(({ id }) => id),
        stages: Object.fromEntries([...stagesOf(tied)].filter(([, n]) => n !== 0)),
        adds_up: addsUp(tied),
        can_be: canBe(lot, tied),
        perhaps: mostLost(lot, tied),
        first_week: addsUp(tied) ? [(left.get("died") ?? 0) + (left.get("missing") ?? 0), of] : null,
        gone: Object.fromEntries(gone.map((how) => [how, gone.filter((one) => one === how).length])),
      };
      return [lot.id, told];
    });
    expect(Object.fromEntries(found)).toEqual(out);
  });
});
