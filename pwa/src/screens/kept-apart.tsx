// Batches that came from elsewhere and are kept apart, until the day that was written with them.
import { keptApart as words } from "../app/words/kept-apart.ts";
import { apart } from "../book/chores-apart.ts";
import { living } from "../book/marks.ts";
import type { Standing } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { batchName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";
import { dayTold } from "./told-day.ts";

/** The latest day until which a batch is kept apart, where it has not passed and some of it live; else null. */
export function lotApartUntil(totals: Standing, id: string, today: string): string | null {
  const lot = totals.lots.get(id);
  const [until = ""] = apart(totals).get(id) ?? [];
  return lot !== undefined && living(lot) > 0 && until >= today ? until : null;
}

/** Nothing where no batch is kept apart. lots: of these alone. */
export function KeptApart({ today, lots }: { today: string; lots?: readonly string[] }) {
  const totals = standing.value;
  const kept = [...totals.lots.values()].flatMap((lot) => {
    const until = lots && !lots.includes(lot.id) ? null : lotApartUntil(totals, lot.id, today);
    return until === null ? [] : [{ lot, until }];
  });
  if (kept.length === 0) return null;
  return (
    <Notice tone="watch">
      {kept.map(({ lot, until }) => (
        <p key={lot.id}>
          <b>{words.batch(batchName(totals, lot), living(lot), dayTold(until))}</b>
        </p>
      ))}
      <p>{words.how}</p>
    </Notice>
  );
}
