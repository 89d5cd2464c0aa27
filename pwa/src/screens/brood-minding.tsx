// What to mind where batches share a place, or would: said, never blocked.
import { brood as words } from "../app/words/brood.ts";
import type { Standing } from "../book/standing.ts";
import { agesApart, alikePairs } from "../book/together.ts";
import { familyName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";

interface MindingProps {
  readonly totals: Standing;
  readonly lots: readonly string[];
  readonly now_ms: number;
  /** The place they share; null where they would. */
  readonly place: string | null;
}

export function Minding({ totals, lots, now_ms, place }: MindingProps) {
  const alike = alikePairs(totals, lots);
  const isApart = agesApart(totals, lots, now_ms);
  if (alike.length === 0 && !isApart) return null;
  const name = (lot: string) => familyName(totals, totals.lots.get(lot)?.family);
  const { minding } = words;
  const bare = [...new Set(alike.flat())];
  return (
    <Notice tone="watch" live>
      {alike.map(([one, other]) => (
        <p key={`${one} ${other}`}>
          <b>
            {place === null
              ? minding.willAlike(name(one), name(other))
              : minding.alike(name(one), name(other), place)}
          </b>
        </p>
      ))}
      {alike.length > 0 && <p>{minding.alikeRemedy}</p>}
      {isApart && (
        <p>
          <b>{place === null ? minding.willAges : minding.ages}</b> {minding.agesRemedy}
        </p>
      )}
      {bare.length > 0 && (
        <div class="acts">
          {bare.map((lot) => (
            <a class="press plain" key={lot} href={`/mark/${lot}`}>
              {minding.mark(name(lot))}
            </a>
          ))}
        </div>
      )}
    </Notice>
  );
}
