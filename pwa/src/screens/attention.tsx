// What the keeper should know beside the two plain states: what happened, that nothing is lost, what to do.
import { attention as words } from "../app/words/attention.ts";
import { type Attention, attention } from "../state/connection.ts";
import { Notice } from "./parts/notice.tsx";

interface Told {
  readonly what: string;
  readonly remedy: string;
}

/** The words for one matter; null where the connection line says enough. */
export function told(matter: Attention): Told | null {
  switch (matter.kind) {
    case "storage":
      return words.storage[matter.code];
    case "not_saved":
      return { what: words.notSaved(matter.n), remedy: words.storage[matter.code].remedy };
    case "refused":
    case "set_aside":
      return { what: matter.refusal.message, remedy: matter.refusal.remedy };
    case "unreachable":
      return null;
    case "other_book":
      return words.other_book;
    case "clock":
      return words.clock(matter.behind_ms);
    default:
      return words[matter.kind];
  }
}

/** The two gravest matters; the screen "This phone" shows them all. */
export function AttentionNotices({ most = 2 }: { most?: number }) {
  const shown = attention.value.map(told).filter((matter) => matter !== null);
  const different = shown.filter(
    (matter, at) => shown.findIndex((other) => other.what === matter.what) === at,
  );
  if (different.length === 0) return null;
  return (
    <div class="notices">
      {different.slice(0, most).map((matter) => (
        <Notice key={matter.what} tone="watch" live>
          <b>{matter.what}</b> {matter.remedy}
        </Notice>
      ))}
    </div>
  );
}
