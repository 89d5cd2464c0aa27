// What the keeper should heed at this tally, now: a tray in the cold, a pipped egg, an opening that comes too soon.
import { cautions } from "../app/words/tally-panels.ts";
import { OPEN_AFTER_H } from "../trade/breakout.ts";
import { TRAY_OUT_MIN } from "../trade/candling.ts";
import { Notice } from "./parts/notice.tsx";
import { stripOf } from "./tally-plan.ts";
import type { Counting } from "./tally-turn.ts";
import type { TallyView } from "./tally-view.ts";

const HOUR_MS = 3_600_000;

export function TallyCautions({ view, what, batch, left, now_ms, out_min }: Counting) {
  if (what === "hatch" && batch.pipped > 0 && left > 0) return <Notice>{cautions.lid}</Notice>;
  if (out_min !== null && out_min >= TRAY_OUT_MIN.value)
    return (
      <Notice tone="watch" live>
        {cautions.cold(out_min)}
      </Notice>
    );
  if (what !== "open" || left === 0) return null;
  const hours = hoursSinceLastChick(view, now_ms);
  if (hours === null || hours >= OPEN_AFTER_H) {
    const begun = stripOf(what, batch).out.length > 0; // said once a batch: then the eggs need the room
    return begun ? null : <Notice>{cautions.listen}</Notice>;
  }
  return (
    <Notice tone="watch" live>
      {cautions.tooSoon(Math.floor(hours), OPEN_AFTER_H)}
    </Notice>
  );
}

/** Null where no chick has come yet. */
function hoursSinceLastChick({ setting, batches }: TallyView, now_ms: number): number | null {
  const moves = [...batches.flatMap((lot) => lot.moves), ...setting.among];
  const hatched = moves.filter((move) => move.target === "hatched").map((move) => move.atMs);
  return hatched.length === 0 ? null : (now_ms - Math.max(...hatched)) / HOUR_MS;
}
