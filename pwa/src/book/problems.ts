/** Problems: what does not add up in the book, said in words, never refused and never thrown. */
import table from "@tables/problems.json";
import { byAscii, byCodePoint } from "./code-points.ts";

/**
 * Something a keeper should look at. code: a stable word for programs. entry: the id of the entry it is about.
 * message: what does not add up. remedy: what to do.
 */
export interface Problem {
  readonly code: string;
  readonly message: string;
  readonly entry: string | null;
  readonly remedy: string;
}

type ProblemCode = keyof typeof table.problems;

const STAGE_WORDS = new Map<string, string>(Object.entries(table.stages));

/** A problem in the words of the table both languages share, with its names filled in. */
export function problem(
  code: ProblemCode,
  entry: string | null,
  names: Readonly<Record<string, string | number>> = {},
): Problem {
  const words = table.problems[code];
  const message = words.message.replace(/\{(\w+)\}/g, (_, name: string) => String(names[name]));
  return { code, message, entry, remedy: words.remedy };
}

/** A stage in plain words; one this version does not know keeps its own name. */
export function stageWords(stage: string): string {
  return STAGE_WORDS.get(stage) ?? stage;
}

/** Problems without doubles, by code, entry, message: an order that depends on the set of entries alone. */
export function inOrder(problems: readonly Problem[]): readonly Problem[] {
  const sorted = [...problems].sort(
    (a, b) =>
      byAscii(a.code, b.code) || byAscii(a.entry ?? "", b.entry ?? "") || byCodePoint(a.message, b.message),
  );
  return sorted.filter((found, i) => !isSame(found, sorted[i - 1]));
}

function isSame(a: Problem, b: Problem | undefined): boolean {
  return a.code === b?.code && a.entry === b.entry && a.message === b.message;
}
