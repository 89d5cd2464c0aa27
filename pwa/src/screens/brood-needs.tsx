// Room, feed and water of the young in a place: today, and from the next change on; what to buy for four weeks.

import { listed } from "../app/words/everywhere.ts";
import { needs as words } from "../app/words/needs.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { standing } from "../state/standing.ts";
import {
  feedChange,
  feedFigures,
  type Growth,
  gritFigure,
  gritMm,
  HOT,
  isOneSource,
  LAYER_FEED,
  LOOK,
  memoryWords,
  noteFor,
  type OfKind,
  proteinAt,
  SPREAD,
  turkeyProteinPct,
  waterFigures,
} from "../trade/feeding.ts";
import { endsOf, figureWords, type Published } from "../trade/ranges.ts";
import { sourceTitle } from "../trade/sources.ts";
import { spaceAt } from "../trade/space.ts";
import { amount } from "./amounts.ts";
import { dated, FOUR_WEEKS, feedFor, type Needs, needsAt, nextChangeMs } from "./brood-needs-view.ts";
import { type Group, type Nest, youngWords } from "./brood-view.ts";
import { Notice } from "./parts/notice.tsx";
import { Why } from "./parts/why.tsx";
import { Section } from "./section.tsx";
import { speciesName } from "./species-name.ts";
import { dayWords } from "./told-time.ts";

const DAY_MS = 86_400_000;
const WATERFOWL = ["duck", "goose", "muscovy"];

export function BroodNeeds({ nest, now_ms }: { nest: Nest; now_ms: number }) {
  const { zone, region: code } = standing.value.keeper;
  const region = regionOf(code);
  const groups = dated(nest.groups);
  if (groups.length === 0) {
    return (
      <Section title={words.title}>
        <p>{words.ageless}</p>
      </Section>
    );
  }
  const change = nextChangeMs(groups, now_ms);
  const on = change === null ? null : dayWords(change, zone);
  const later = now_ms + FOUR_WEEKS * DAY_MS;
  const slow = feedFor(groups, now_ms, later);
  const fast = feedFor(groups, now_ms, later, "fast");
  const until = change === null ? null : feedFor(groups, now_ms, change);
  const kinds = [...new Set(groups.map(({ species }) => species))];
  const ofKind = (kind: string, figures: (group: (typeof groups)[number]) => readonly OfKind[]) =>
    groups.filter(({ species }) => species === kind).flatMap(figures);
  const about = (what: string, species: string) =>
    [what, ...(kinds.length > 1 ? [speciesName(species)] : [])].filter(Boolean).join(", ");
  return (
    <Section title={words.title}>
      <p class="quiet">{words.for(youngWords(groups))}</p>
      <Table
        now={needsAt(groups, now_ms)}
        next={change === null ? null : needsAt(groups, change)}
        from={on === null ? "" : words.from(on)}
      />
      {kinds.map((species) => (
        <Behind
          key={species}
          figures={ofKind(species, ({ ageDays }) => waterFigures(species, ageDays))}
          about={about(words.water, species)}
        />
      ))}
      <p>
        {on === null ? words.noChange : words.change(on)}
        {until && ` ${words.untilThen(amount(until, "feed", region))}`}
      </p>
      <h3 class="section">{words.buy}</h3>
      <p>
        <b>{slow ? words.buyFor(amount(slow, "feed", region)) : words.unreadFeed}</b>
      </p>
      {kinds.map((species) => (
        <Behind
          key={species}
          figures={ofKind(species, ({ ageDays }) => eaten(species, ageDays, slow ? FOUR_WEEKS : 1))}
          about={about(slow ? "" : words.feed, species)}
        />
      ))}
      {fast && (
        <>
          <p>{words.buyMeat(amount(fast, "feed", region))}</p>
          {kinds.map((species) => (
            <Behind
              key={species}
              figures={ofKind(species, ({ ageDays }) => eaten(species, ageDays, FOUR_WEEKS, "fast"))}
              about={about("", species)}
            />
          ))}
        </>
      )}
      <p class="quiet">{LOOK}</p>
      {kinds.map((species) => (
        <FeedOf key={species} species={species} groups={groups} isNamed={kinds.length > 1} />
      ))}
      <Notice>
        <p>{words.layer(Math.round(endsOf(LAYER_FEED)[0] / 7))}</p>
        <p>{words.medicated}</p>
      </Notice>
      <Why about={words.why.about} formula={words.why.formula} sources={sourcesOf(groups)} />
    </Section>
  );
}

const eaten = (species: string, ageDays: number, days: number, growth: Growth = "slow") =>
  feedFigures(species, ageDays, ageDays + days, growth);

/** Which sources a range comes from, of which birds they speak, and whether figures are from memory. */
function Behind({ figures, about }: { figures: readonly OfKind[]; about?: string }) {
  if (figures.length === 0) return null;
  const bySource = new Map<string, string[]>();
  for (const { source, kind } of figures) {
    const title = sourceTitle(source) ?? source;
    bySource.set(title, [...new Set([...(bySource.get(title) ?? []), kind])]);
  }
  const told = [...bySource].map(([title, kinds]) => words.source(title, listed(kinds)));
  return (
    <p class="quiet small">
      {about && `${about}: `}
      {isOneSource(figures)
        ? words.from1(told.join("; "), figureWords(SPREAD))
        : words.differ(told.join("; "))}{" "}
      {memoryWords(figures)}
    </p>
  );
}

interface TableProps {
  readonly now: Needs;
  readonly next: Needs | null;
  readonly from: string;
}

function Table({ now, next, from }: TableProps) {
  const region = regionOf(standing.value.keeper.region);
  const rows = [
    [words.floor, "floorM2", "area"],
    [words.feeder, "feederCm", "length"],
    [words.drinker(region), "drinkerCm", "length"],
    [words.feed, "feedG", "feed"],
    [words.water, "waterMl", "water"],
  ] as const;
  return (
    <table class="needs">
      <thead>
        <tr>
          <th scope="col">
            <span class="heard">{words.what}</span>
          </th>
          <th scope="col">{words.today}</th>
          {next && <th scope="col">{from}</th>}
        </tr>
      </thead>
      <tbody>
        {rows.map(([title, part, unit]) => (
          <tr key={part}>
            <th scope="row">{title}</th>
            <td>{amount(now[part], unit, region)}</td>
            {next && <td>{amount(next[part], unit, region)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface FeedOfProps {
  readonly species: string;
  readonly groups: readonly (Group & { readonly ageDays: number })[];
  readonly isNamed: boolean;
}

/** What feed, when the next, and what to mind with this species: by the youngest of it here. */
function FeedOf({ species, groups, isNamed }: FeedOfProps) {
  const { zone, region: code } = standing.value.keeper;
  const region = regionOf(code);
  const own = groups.filter((group) => group.species === species);
  const [youngest] = [...own].sort((a, b) => a.ageDays - b.ageDays);
  if (youngest === undefined || youngest.bornMs === null) return null;
  const { ageDays, bornMs } = youngest;
  const protein = proteinAt(species, ageDays);
  const change = feedChange(species);
  const note = noteFor(species);
  const on = (day: number) => dayWords(bornMs + day * DAY_MS, zone);
  const [male, female] = [turkeyProteinPct(ageDays / 7, "male"), turkeyProteinPct(ageDays / 7, "female")];
  const [hotLow, hotHigh] = endsOf(HOT);
  const grit = gritMm(species, ageDays);
  return (
    <>
      {isNamed && <h3 class="section">{speciesName(species)}</h3>}
      {protein && (
        <p>{words.protein(words.stages(region)[protein.stage] ?? protein.stage, ...protein.percent)}</p>
      )}
      {protein && species === "turkey" && male !== null && female !== null && (
        <p>{words.turkeys(male, female)}</p>
      )}
      {change && ageDays <= change.days[1] && (
        <p>{words.changeFeed(on(change.days[0]), on(change.days[1]))}</p>
      )}
      {grit && <p>{words.grit(...grit)}</p>}
      {note && <p>{note.replace("drinkers", `${termsOf(region).drinker}s`)}</p>}
      {WATERFOWL.includes(species) && <p>{words.swim}</p>}
      <p class="quiet">{words.hot(hotLow, hotHigh)}</p>
    </>
  );
}

/** Every figure behind the ranges, each once. */
function sourcesOf(groups: readonly (Group & { readonly ageDays: number })[]) {
  const figures = groups.flatMap(({ species, ageDays }): readonly Published[] => [
    ...(spaceAt(species, ageDays)?.figures ?? []),
    ...(proteinAt(species, ageDays)?.figures ?? []),
    ...[
      ...eaten(species, ageDays, 1),
      ...eaten(species, ageDays, 1, "fast"),
      ...waterFigures(species, ageDays),
    ].map(({ kind, unit, ...one }) => ({ ...one, unit: words.why.ofKind(unit, kind) })),
    SPREAD,
    ...[feedChange(species), gritFigure(species, ageDays)].flatMap((one) => one ?? []),
    HOT,
    LAYER_FEED,
  ]);
  const told = new Map(
    figures.map((one) => {
      const title = sourceTitle(one.source) ?? one.source;
      return [words.why.value(figureWords(one), one.unit, title), one.status as "seen"];
    }),
  );
  return [...told].map(([title, status]) => ({ title, status }));
}
