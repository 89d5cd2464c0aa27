/** What the lines of a judgement come to: points by part, those of a fault below nought. */
import { judging as words } from "../app/words/judging.ts";
import { totalOf } from "../book/judged.ts";
import { readDecimal } from "./parts/read-number.ts";

/** One line of the form: a part or a fault, and the points as typed. */
export interface Line {
  readonly trait: string;
  readonly points: string;
}

export const noLine = (): Line => ({ trait: "", points: "" });

interface Judgement {
  readonly scores: Readonly<Record<string, number>>;
  readonly total: number;
  /** Of lines that cannot be read: what to do. A line without points says nothing and is left out. */
  readonly faults: ReadonlyMap<Line, string>;
  readonly empty: boolean;
}

/** given: parts with their points. cut: faults with the points they take off. */
export function judged(given: readonly Line[], cut: readonly Line[]): Judgement {
  const scores: Record<string, number> = {};
  const seen = new Set<string>();
  const faults = new Map<Line, string>();
  for (const [lines, sign] of [[given, 1] as const, [cut, -1] as const]) {
    for (const line of lines) {
      const trait = line.trait.trim();
      const points = readDecimal(line.points, 0);
      if (!points.ok && points.why === "empty") continue;
      if (!points.ok) faults.set(line, words.noPoints);
      else if (!trait) faults.set(line, words.noTrait);
      else if (seen.has(trait.toLowerCase())) faults.set(line, words.twice);
      else {
        scores[trait] = points.value === 0 ? 0 : sign * points.value;
        seen.add(trait.toLowerCase());
      }
    }
  }
  return { scores, total: totalOf(scores), faults, empty: seen.size === 0 };
}
