// A pen as it is being written down: shares typed as percent, what is wrong, and the body it becomes. Pure.
import type { Penned } from "../book/bodies.generated.ts";
import { readDecimal } from "./parts/read-number.ts";
import { isDay } from "./told-day.ts";

export type Side = "sires" | "dams";
export const SIDES = ["sires", "dams"] as const satisfies Side[];

/** shares: bird -> percent as typed; they count where alike is "no" and a side has several birds. */
export interface PenDraft {
  readonly family: string;
  readonly place: string;
  readonly since: string;
  readonly until: string;
  readonly sires: readonly string[];
  readonly dams: readonly string[];
  readonly alike: "yes" | "no";
  readonly shares: Readonly<Record<string, string>>;
}

/** sum: by side, of shares that are all numbers and do not sum to 100. unread: birds whose share is no number. */
export interface PenFaults {
  readonly noFamily: boolean;
  readonly nobody: boolean;
  readonly noHens: boolean;
  readonly noDay: boolean;
  readonly order: boolean;
  readonly unread: ReadonlySet<string>;
  readonly sum: Readonly<Partial<Record<Side, number>>>;
}

/** A whole percent is as near as a keeper says it: a half more or less is taken as 100. */
const NEAR = 0.5;

export function penFaults(draft: PenDraft): PenFaults {
  const { family, since, until, sires, dams } = draft;
  const unread = new Set<string>();
  const sum: Partial<Record<Side, number>> = {};
  for (const side of SIDES) {
    const told = sharesOf(draft, side);
    if (told === null) continue;
    let total = 0;
    for (const [bird, share] of told) {
      if (share === null) unread.add(bird);
      else total += share;
    }
    if (unread.size === 0 && Math.abs(total - 100) > NEAR) sum[side] = total;
  }
  return {
    noFamily: family === "",
    nobody: sires.length + dams.length === 0,
    noHens: sires.length > 0 && dams.length === 0,
    noDay: !isDay(since) || (until !== "" && !isDay(until)),
    order: isDay(since) && isDay(until) && until < since,
    unread,
    sum,
  };
}

export const isFaulty = ({ unread, sum, ...plain }: PenFaults): boolean =>
  unread.size > 0 || Object.keys(sum).length > 0 || Object.values(plain).some(Boolean);

/** The body of a draft without faults. Shares are scaled to sum to one. */
export function penBody(draft: PenDraft): Penned {
  const birds = (side: Side) => {
    const told = sharesOf(draft, side);
    if (told === null) return draft[side].map((bird) => ({ bird }));
    const total = [...told.values()].reduce<number>((sum, share) => sum + (share ?? 0), 0);
    return [...told].map(([bird, share]) => ({ bird, share: (share ?? 0) / total }));
  };
  return {
    family: draft.family,
    ...(draft.place ? { place: draft.place } : {}),
    since: draft.since,
    ...(draft.until ? { until: draft.until } : {}),
    sires: birds("sires"),
    dams: birds("dams"),
  };
}

/** What stands in the book, to be changed. since: "" where none was typed yet: from today on. */
export function draftOf(body: Partial<Penned>, family: string): PenDraft {
  const both = [...(body.sires ?? []), ...(body.dams ?? [])];
  const said = both.some(({ share }) => share !== undefined && share !== null);
  return {
    family: body.family ?? family,
    place: body.place ?? "",
    since: body.since?.slice(0, 10) ?? "",
    until: body.until?.slice(0, 10) ?? "",
    sires: (body.sires ?? []).map(({ bird }) => bird),
    dams: (body.dams ?? []).map(({ bird }) => bird),
    alike: said ? "no" : "yes",
    shares: Object.fromEntries(
      both.flatMap(({ bird, share }) => (share == null ? [] : [[bird, percent(share)]])),
    ),
  };
}

/** A share as percent, without tails of binary fractions. */
export const percent = (share: number): string => String(Number((100 * share).toFixed(2)));

/** Percent by bird, null where it is no number; null where the side's shares are not asked. */
function sharesOf(draft: PenDraft, side: Side): Map<string, number | null> | null {
  if (draft.alike === "yes" || draft[side].length < 2) return null;
  return new Map(
    draft[side].map((bird) => {
      const read = readDecimal(draft.shares[bird] ?? "", 0, 100);
      return [bird, read.ok ? read.value : null];
    }),
  );
}
