import { signal } from "@preact/signals";
import type { Ask } from "../sync/server.ts";
import { openDesk } from "./desk.ts";
import { parseSeason, type SeasonReport } from "./season-report.ts";

/**
 * Answers that only the server can work out, shown from the last one with its date. They are kept beside the book,
 * one for each holding and year: losing them loses nothing.
 */
export type SeasonAnswer =
  | { readonly kind: "asking"; readonly report: SeasonReport | null }
  | { readonly kind: "fresh"; readonly report: SeasonReport }
  /** The server cannot be asked now; what it said before, if it ever did. */
  | { readonly kind: "away"; readonly report: SeasonReport | null }
  | { readonly kind: "unpaired" };

export const season = signal<SeasonAnswer>({ kind: "unpaired" });

interface Means {
  readonly ask: Ask;
  readonly shore: Pick<Storage, "getItem" | "setItem">;
}

let means: Means | null = null;

/** The way to the server, given once by the composition root. */
export function reportBy(given: Means): void {
  means = given;
}

/** Shows the last answer of a season at once and asks for a new one. */
export async function askSeason(year: number): Promise<void> {
  const { card } = openDesk();
  if (card.paired_ms === null || !means) {
    season.value = { kind: "unpaired" };
    return;
  }
  const key = `broodline-season-${card.id}-${year}`;
  const last = read(means.shore, key);
  season.value = { kind: "asking", report: last };
  const answer = await means.ask({
    method: "GET",
    path: `/api/v1/reports/season/${year}`,
    parse: (value) => value,
  });
  const report = answer.kind === "ok" ? parsed(answer.value) : null;
  if (answer.kind !== "ok" || report === null) {
    season.value = { kind: "away", report: last };
    return;
  }
  season.value = { kind: "fresh", report };
  keep(means.shore, key, answer.value);
}

function parsed(value: unknown): SeasonReport | null {
  try {
    return parseSeason(value);
  } catch {
    return null;
  }
}

/** What was kept is the server's answer as it came, so that a newer app reads it anew. */
function read(shore: Means["shore"], key: string): SeasonReport | null {
  try {
    return parsed(JSON.parse(shore.getItem(key) ?? "null"));
  } catch {
    return null;
  }
}

function keep(shore: Means["shore"], key: string, answer: unknown): void {
  try {
    shore.setItem(key, JSON.stringify(answer));
  } catch {
    // No room: the next answer is asked for again.
  }
}
