import { signal } from "@preact/signals";
import { desk, openDesk } from "./desk.ts";
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

/** The question asked last: an answer to an earlier one, or about another book, comes too late. */
let asked = "";

/** Shows the last answer of a season at once and asks for a new one. */
export async function askSeason(year: number): Promise<void> {
  const open = openDesk();
  const path = `/api/v1/reports/season/${year}`;
  const question = `${open.card.id} ${path}`;
  const isLate = () => asked !== question || desk.value?.card.id !== open.card.id;
  asked = question;
  if (!open.sync) {
    season.value = { kind: "unpaired" };
    return;
  }
  const kept = await open.storage.answer(path).catch(() => null);
  const last = kept ? parsed(kept.value) : null;
  if (isLate()) return;
  season.value = { kind: "asking", report: last };
  const answer = await open.ask({ method: "GET", path, parse: (value) => value });
  if (isLate()) return;
  const report = answer.kind === "ok" ? parsed(answer.value) : null;
  if (answer.kind !== "ok" || report === null) {
    season.value = { kind: "away", report: last };
    return;
  }
  season.value = { kind: "fresh", report };
  // As it came, so that a newer app reads it anew; where there is no room it is asked for again.
  await open.storage.keepAnswer(path, { value: answer.value, got_ms: answer.got_ms }).catch(() => undefined);
}

function parsed(value: unknown): SeasonReport | null {
  try {
    return parseSeason(value);
  } catch {
    return null;
  }
}
