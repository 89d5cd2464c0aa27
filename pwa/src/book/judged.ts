/** Birds judged by points: what a card of them is made of. Read by the server's server/broodline/reports/scores.py. */
import { byAscii } from "./code-points.ts";
import type { Standing } from "./standing.ts";

/** A trait of this name is the sum that a keeper wrote of the others. */
const TOTAL = "total";

/** The sum of what is given and cut; where only a total was written, that. */
export function totalOf(scores: Readonly<Record<string, number>>): number {
  const parts = Object.entries(scores).filter(([trait]) => trait.toLowerCase().trim() !== TOTAL);
  const summed = parts.length > 0 ? parts : Object.entries(scores);
  // Points are typed with a few decimals at most: their sum has no more.
  return Math.round(summed.reduce((sum, [, points]) => sum + points, 0) * 1e6) / 1e6;
}

/** The parts by which the last bird was judged; none where none was. */
export function lastCard({ heads }: Standing): readonly string[] {
  const latest = [...(heads.scored ?? [])]
    .sort((a, b) => byAscii(a.body.on, b.body.on) || byAscii(a.id, b.id))
    .at(-1);
  const scores = Object.entries(latest?.body.scores ?? {});
  return scores
    .filter(([trait, points]) => points >= 0 && trait.toLowerCase().trim() !== TOTAL)
    .map(([trait]) => trait);
}
