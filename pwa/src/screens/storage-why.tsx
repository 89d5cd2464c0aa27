// Why old eggs hatch worse, said as what it is: an average of commercial flocks.
import { batchMore } from "../app/words/set.ts";
import { sourceTitle } from "../trade/sources.ts";
import { KEEPING } from "../trade/storage.ts";
import { Why } from "./parts/why.tsx";

export function StorageWhy({ days, points }: { days: number; points: number | null }) {
  const words = batchMore.costWhy;
  const { source, status } = KEEPING.cost;
  return (
    <Why
      about={words.about}
      formula={words.formula}
      inputs={[
        { name: words.days, value: String(days) },
        { name: words.points, value: points === null ? "–" : points.toFixed(1) },
      ]}
      sources={[{ title: sourceTitle(source) ?? source, status }]}
    />
  );
}
