// What can be written down about a batch of chicks, each with a page of its own.
import { birds } from "../app/words/birds.ts";
import { brood as words } from "../app/words/brood.ts";
import { choosing } from "../app/words/choosing.ts";
import { marks } from "../app/words/marks.ts";
import { living } from "../book/marks.ts";
import type { Lot } from "../book/standing.ts";
import { mayGo } from "../state/birds.ts";

export function BroodLinks({ lot, name }: { lot: Lot; name: string }) {
  const isMarked = living(lot) > 0;
  const isYoung = mayGo(lot) > 0;
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
      {isYoung && (
        <>
          <a
            class="press plain"
            href={`/birds/weigh?who=lot:${lot.id}`}
            aria-label={`${choosing.weigh}: ${name}`}
          >
            {choosing.weigh}
          </a>
          <a class="press plain" href={`/birds/choose/${lot.id}`} aria-label={`${birds.choose}: ${name}`}>
            {birds.choose}
          </a>
        </>
      )}
    </nav>
  );
}
