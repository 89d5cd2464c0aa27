// The finding of each part of the season's page, in one line. Pure.
import { season as words } from "../app/words/season.ts";
import type { SeasonReport } from "../state/season-report.ts";
import type { Rate } from "../trade/proportions.ts";

const DIFFER_BELOW = 0.05;
export const LEAST_P = 0.001;

/** "0.03", or "under 0.001" where the digits would only pretend. */
export function pText(p: number): string {
  if (p < LEAST_P) return words.tiny;
  return p < 0.1 ? p.toPrecision(2) : p.toFixed(2);
}

const pct = (rate: Rate) => words.percent(rate.rate ?? 0);
const known = <R extends { readonly hatch_of_set: Rate }>(rows: readonly R[]) =>
  rows
    .filter((row) => row.hatch_of_set.rate !== null)
    .sort((a, b) => (a.hatch_of_set.rate ?? 0) - (b.hatch_of_set.rate ?? 0));

/** Lowest and highest hatch of those set among the families; null with fewer than two. */
export function familiesTitle({ families }: SeasonReport): string | null {
  const ranked = known(families);
  const [least, most] = [ranked[0], ranked.at(-1)];
  if (!least || !most || least === most) return null;
  return words.titles.families(least.name, pct(least.hatch_of_set), most.name, pct(most.hatch_of_set));
}

export function funnelTitle({ funnel }: SeasonReport): string {
  const at = (step: string) => funnel.find((one) => one.step === step)?.n ?? 0;
  const untold = funnel.find((one) => one.step === "alive")?.notWritten ?? 0;
  return words.titles.funnel(at("set"), at("hatched"), at("alive"), untold);
}

export function comparedTitle({ p }: SeasonReport): string {
  if (p === null) return words.hatchOfSet;
  const told = p < LEAST_P ? words.tiny : pText(p);
  return p <= DIFFER_BELOW ? words.titles.apart(told) : words.titles.alike(told);
}

export function lossesTitle({ families }: SeasonReport): string {
  const sums = new Map<string, number>();
  for (const { deaths } of families)
    for (const [code, n] of Object.entries(deaths)) sums.set(code, (sums.get(code) ?? 0) + n);
  const all = [...sums.values()].reduce((sum, n) => sum + n, 0);
  const [code, most] = [...sums].reduce((a, b) => (b[1] > a[1] ? b : a), ["", 0] as [string, number]);
  return all === 0 ? words.titles.noLosses : words.titles.losses(all, words.diedAs[code] ?? code, most);
}

/** "20.8": days since setting. */
export const dayText = (hours: number): string => (hours / 24).toFixed(1);

export function hatchesTitle({ hatches }: SeasonReport): string {
  const halves = hatches.flatMap(({ median_h }) => median_h ?? []);
  if (halves.length === 0) return words.titles.noWindows;
  return words.titles.windows(dayText(Math.min(...halves)), dayText(Math.max(...halves)));
}

export function chicksTitle({ chick_losses }: SeasonReport): string {
  const all = chick_losses.reduce((sum, row) => sum + row.lost.k, 0);
  const most = chick_losses.reduce<SeasonReport["chick_losses"][number] | null>(
    (a, b) => (a === null || b.lost.k > a.lost.k ? b : a),
    null,
  );
  return all === 0 || !most
    ? words.titles.noChicks
    : words.titles.chicks(all, words.chicks.ages(most.from_days, most.to_days));
}

export const GROUPS = ["by_egg_age", "by_place", "by_month"] as const;

export function groupsTitle(report: SeasonReport): string {
  const parts = GROUPS.flatMap((group) => {
    const ranked = known(report[group]);
    const [low, high] = [ranked[0], ranked.at(-1)];
    return low && high
      ? [words.titles.group(words.group[group], pct(low.hatch_of_set), pct(high.hatch_of_set))]
      : [];
  });
  return words.titles.groups(parts.join(", "));
}

export function earlierTitle({ earlier, families }: SeasonReport): string {
  const [k, n] = families.reduce(
    ([sum, of], { hatch_of_set }) => [sum + hatch_of_set.k, of + hatch_of_set.n],
    [0, 0],
  );
  const ranked = known(earlier);
  const [low, high] = [ranked[0], ranked.at(-1)];
  if (n === 0 || !low || !high) return words.titles.earlierOnly;
  return words.titles.earlier(words.percent(k / n), pct(low.hatch_of_set), pct(high.hatch_of_set));
}
