// Broods, a place with chicks, a batch of chicks, and what is written about them.
import { BroodBatchScreen } from "./brood-batch.tsx";
import { BroodMoveScreen } from "./brood-move.tsx";
import { BroodPlaceScreen } from "./brood-place.tsx";
import { BroodsScreen } from "./broods.tsx";

const PAGES = { place: BroodPlaceScreen, move: BroodMoveScreen, batch: BroodBatchScreen } as const;

/** id: of a place, or of a batch; null for all of them. */
export function BroodPages({ page, id }: { page: keyof typeof PAGES; id: string | null }) {
  if (id === null) return <BroodsScreen />;
  const Screen = PAGES[page];
  return <Screen id={id} />;
}
