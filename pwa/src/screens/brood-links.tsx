// What can be written down about a batch of chicks, each with a page of its own.
import { brood as words } from "../app/words/brood.ts";
import { marks } from "../app/words/marks.ts";
import { living } from "../book/marks.ts";
import type { Lot } from "../book/standing.ts";

export function BroodLinks({ lot, name }: { lot: Lot; name: string }) {
  const isMarked = living(lot) > 0;
  return (
    <nav class="acts" aria-label={words.links}>
      {isMarked && (
        <a class="press plain" href={`/mark/${lot.id}`} aria-label={words.mark(name)}>
          {marks.mark}
        </a>
      )}
      {isMarked && (
        <a class="press plain" href={`/again/${lot.id}`}>
          {marks.again.link}
        </a>
      )}
    </nav>
  );
}
