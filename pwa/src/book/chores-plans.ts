/**
 * Settings that are planned and not begun. Mirrors server/broodline/reports/plan_tasks.py over tests/vectors/agenda.json.
 * A plan is a `note` with a `plan`; the `set` that takes it up names that note. Taken back, it asks no more.
 */
import { localDate, milestone } from "../trade/calendar.ts";
import { inASentence, speciesNamed } from "../trade/species.ts";
import type { Chore } from "./chores.ts";
import { DAY_MS, dayNumber, HOUR_MS, heldMs } from "./moments.ts";
import type { Standing } from "./standing.ts";

const DATE = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "long", timeZone: "UTC" });

/** id: of the note, in its root. place: "" where none is decided. */
export interface Planned {
  readonly id: string;
  readonly species: string;
  readonly setOn: string;
  readonly place: string;
}

/** The plans that no setting took up yet, of species that the tables know. */
export function openPlans({ heads, rootOf }: Standing): Planned[] {
  const refer = (name: string) => rootOf.get(name) ?? name;
  const begun = new Set((heads.set ?? []).flatMap(({ body }) => (body.plan ? [refer(body.plan)] : [])));
  return (heads.note ?? []).flatMap(({ root, body: { plan } }) => {
    if (!plan || begun.has(root) || speciesNamed(plan.species) === undefined) return [];
    return [{ id: root, species: plan.species, setOn: plan.set_on, place: refer(plan.place ?? "") }];
  });
}

/** All that plans still ask for, however far ahead. */
export function planChores(standing: Standing): Chore[] {
  return openPlans(standing).map(({ id, species, setOn, place }) => ({
    task: "set",
    setting: null,
    lot: null,
    plan: id,
    species,
    place,
    atMs: noonMs(setOn, standing.keeper.zone),
    day: 0,
    n: 0,
    since: setOn,
    due: setOn,
  }));
}

/** The words of a planned setting with its species and the first day of its chicks, "4 April", put in. */
export function plannedWords({ species, atMs }: Chore, words: string, { keeper }: Standing): string {
  const known = speciesNamed(species ?? "");
  if (known === undefined) return words;
  const hatch = localDate(milestone(atMs, known.periodDays[0]).atMs, keeper.zone);
  return words
    .replaceAll("{species}", inASentence(known.name))
    .replaceAll("{hatch}", DATE.format(Date.parse(`${hatch}T12:00:00Z`)));
}

/** The planned setting that these eggs may be: of their species, a week from its day at most; best in its place. */
export function planFor(
  plans: readonly Planned[],
  species: string,
  place: string,
  on: string,
): Planned | null {
  const away = (plan: Planned) => Math.abs((dayNumber(plan.setOn) ?? 0) - (dayNumber(on) ?? 0));
  const fits = plans.filter((plan) => plan.species === species && away(plan) <= 7);
  const elsewhere = (plan: Planned) => Number(plan.place !== "" && plan.place !== place);
  return fits.sort((a, b) => elsewhere(a) - elsewhere(b) || away(a) - away(b))[0] ?? null;
}

/** Noon in Greenwich on that date; half a day off where another date is written there then. */
function noonMs(day: string, zone: string): number {
  const noon = (dayNumber(day) ?? 0) * DAY_MS + 12 * HOUR_MS;
  const there = localDate(heldMs(noon), zone);
  return heldMs(there === day ? noon : noon + (there < day ? 12 : -12) * HOUR_MS);
}
