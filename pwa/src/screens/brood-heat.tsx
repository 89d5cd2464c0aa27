// How warm it should be here, what the chicks look like, and what to do: they outrank the thermometer.
import { useState } from "preact/hooks";
import { heat as words } from "../app/words/heat.ts";
import { safety } from "../app/words/safety.ts";
import { type Advice, adviceFor, type Band, type Look } from "../book/warmth.ts";
import { readHeat, sawChicks } from "../state/chores.ts";
import { standing } from "../state/standing.ts";
import {
  CAUTIONS,
  chicksUnderLamp,
  type Heat,
  heatAt,
  heatPublished,
  heatWords,
  isLooksReadOf,
  LAMP_SOURCE,
  LOOKS_SOURCE,
  lookWords,
  WHERE,
} from "../trade/brooding.ts";
import { toCelsius } from "../trade/climate.ts";
import { figureWords } from "../trade/ranges.ts";
import { sourceTitle } from "../trade/sources.ts";
import { type Group, isHeated, type Nest } from "./brood-view.ts";
import { ChoreDone } from "./chore-done.tsx";
import { celsiusOf, degreesText, temperatureText, temperatureUnit } from "./measures.ts";
import { ChickLook } from "./parts/chick-look.tsx";
import { MeasureField, measured, numberFault } from "./parts/measure-field.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Why } from "./parts/why.tsx";
import { Section } from "./section.tsx";
import { speciesName } from "./species-name.ts";
import { clock, dayKey, dayWords } from "./told-time.ts";

const LOOKS: readonly Look[] = ["spread", "huddled", "away", "one_side"];
const DAY_MS = 86_400_000;
/** A look or reading older than this says nothing of now. */
const FRESH_MS = DAY_MS / 2;
const SENSIBLE_C: readonly [number, number] = [-5, 50];

interface BroodHeatProps {
  readonly nest: Nest;
  readonly now_ms: number;
}

export function BroodHeat({ nest, now_ms }: BroodHeatProps) {
  const isHen = nest.place?.role === "hen";
  return (
    <Section title={words.title}>
      {isHen ? <p>{words.none.hen}</p> : <Bands nest={nest} />}
      {!isHen && (isHeated(nest) || nest.youngest?.ageDays === null || isYoung(nest)) && (
        <>
          <Looks nest={nest} now_ms={now_ms} />
          <ChoreDone now_ms={now_ms} place={nest.id} about="heat" />
          <Reading nest={nest} />
          <Notice tone="watch">
            <p>{CAUTIONS[0]}</p>
            <p>{safety.coated}</p>
            <p class="quiet">{safety.rule}</p>
          </Notice>
        </>
      )}
    </Section>
  );
}

/** Of a species nothing was read of: chicks that may still need heat. */
const isYoung = ({ youngest }: Nest) => youngest !== null && (youngest.ageDays ?? 0) < 42;

/** A band for each kind of young here, by its youngest. */
function Bands({ nest }: { nest: Nest }) {
  const kinds = [...new Set(nest.groups.map(({ species }) => species))];
  const youngest = kinds.flatMap((species) => {
    const own = nest.groups.filter((group) => group.species === species);
    return [...own].sort((a, b) => (a.ageDays ?? 0) - (b.ageDays ?? 0)).slice(0, 1);
  });
  const ages = new Set(nest.groups.map(({ ageDays }) => ageDays));
  return (
    <>
      {youngest.map((group) => (
        <BandOf key={group.species} group={group} isNamed={kinds.length > 1} />
      ))}
      {ages.size > 1 && <p class="quiet">{words.youngest}</p>}
    </>
  );
}

function BandOf({ group, isNamed }: { group: Group; isNamed: boolean }) {
  const { temperature, zone } = standing.value.keeper;
  const { species, ageDays, bornMs } = group;
  if (ageDays === null || bornMs === null) return <p>{words.none.ageless}</p>;
  const published = heatPublished(species);
  const band = heatAt(species, ageDays);
  if (published.length === 0) return <p>{words.none.unread}</p>;
  const onDay = (day: number) => dayWords(bornMs + day * DAY_MS, zone);
  const next = band && band.nextDay !== null ? heatAt(species, band.nextDay) : undefined;
  const nextOn = band && band.nextDay !== null ? onDay(band.nextDay) : "";
  const told = band ? bandTold(band, temperature) : words.none.over;
  return (
    <>
      <p>
        <b>{isNamed ? words.ofSpecies(speciesName(species), told) : told}</b>
      </p>
      {band && band.bandF === null && band.offDays && (
        <p>{words.chicksUntil(onDay(band.offDays[0]), onDay(band.offDays[1]))}</p>
      )}
      {nextOn && band?.bandF && <p>{nextTold(next, nextOn, temperature)}</p>}
      {band && species === "chicken" && <p class="quiet">{lampTold(temperature)}</p>}
      <Why
        about={words.why.about}
        formula={words.why.formula}
        sources={published.map((one) => ({
          title: `${words.why.value(figureWords(one), one.unit)}, ${sourceTitle(one.source) ?? one.source}`,
          status: one.status as "seen",
        }))}
      />
    </>
  );
}

/** °F: the source's own room, and a cold one. */
const ROOMS_F = [50, 23];

function lampTold(scale: "C" | "F"): string {
  const rooms = ROOMS_F.map((f) => words.lampRoom(chicksUnderLamp(f), heatWords([f, f], scale)));
  return words.lamp(rooms.join(", "), sourceTitle(LAMP_SOURCE) ?? LAMP_SOURCE);
}

function bandTold({ bandF }: Heat, scale: "C" | "F"): string {
  return bandF === null ? words.chicks : words.band(heatWords(bandF, scale), WHERE);
}

function nextTold(next: Heat | undefined, on: string, scale: "C" | "F"): string {
  if (next === undefined) return words.off(on);
  return next.bandF === null ? words.chicksFrom(on) : words.next(on, heatWords(next.bandF, scale));
}

/** What was seen and read here last, while it still says something. */
function lastChecks(place: string, now_ms: number) {
  const { heads, rootOf } = standing.value;
  const fresh = (heads.brooder_check ?? [])
    .filter(({ body, atMs }) => (rootOf.get(body.place) ?? body.place) === place && now_ms - atMs < FRESH_MS)
    .sort((a, b) => a.atMs - b.atMs);
  const look = fresh.filter(({ body }) => body.look).at(-1);
  const read = fresh.filter(({ body }) => typeof body.heat_c === "number").at(-1);
  return { look, read };
}

function Looks({ nest, now_ms }: BroodHeatProps) {
  const totals = standing.value;
  const { zone } = totals.keeper;
  const { look, read } = lastChecks(nest.id, now_ms);
  const seen = look?.body.look ?? null;
  const heatC = read?.body.heat_c ?? null;
  const advice = adviceFor(seen, heatC, bandOf(nest));
  const when = (atMs: number) =>
    dayKey(atMs, zone) === dayKey(now_ms, zone)
      ? clock(atMs, zone)
      : `${dayWords(atMs, zone)}, ${clock(atMs, zone)}`;
  return (
    <>
      <h3 class="section" id="look-ask">
        {words.ask}
      </h3>
      <p class="quiet">{words.first}</p>
      <div class="looks" role="radiogroup" aria-labelledby="look-ask">
        {LOOKS.map((one) => (
          <Press
            key={one}
            role="radio"
            checked={one === seen}
            name={`${words.looks[one]}: ${words.pictured[one]}`}
            onPress={() => void sawChicks(nest.id, one)}
          >
            <ChickLook look={one} />
            {words.looks[one]}
          </Press>
        ))}
      </div>
      {(look || read) && (
        <div class="section" role="status">
          {look && seen && (
            <>
              <p class="quiet">{words.sawAt(words.looks[seen], when(look.atMs))}</p>
              <p>
                <b>{lookWords(seen)}</b>
              </p>
            </>
          )}
          {read && heatC !== null && (
            <p class="quiet">
              {words.readAt(temperatureText(heatC, temperatureUnit(totals)), when(read.atMs))}
            </p>
          )}
          {advice && <p>{adviceWords(advice)}</p>}
          <p class="quiet small">
            {seen && looksTold(nest)} {words.judgement}
          </p>
        </div>
      )}
    </>
  );
}

/** Where it was read what such looks say: that was of quail. */
function looksTold({ groups }: Nest): string {
  return groups.every(({ species }) => isLooksReadOf(species))
    ? words.source(sourceTitle(LOOKS_SOURCE) ?? LOOKS_SOURCE)
    : words.practice;
}

function bandOf({ youngest }: Nest): Band | null {
  const band = youngest?.ageDays == null ? undefined : heatAt(youngest.species, youngest.ageDays);
  return band?.bandF ? { lowC: toCelsius(band.bandF[0]), highC: toCelsius(band.bandF[1]) } : null;
}

function adviceWords(advice: Advice): string {
  const unit = temperatureUnit(standing.value);
  return advice.kind === "below" || advice.kind === "above"
    ? words.advice[advice.kind](degreesText(advice.offC, unit))
    : words.advice[advice.kind];
}

function Reading({ nest }: { nest: Nest }) {
  const unit = temperatureUnit(standing.value);
  const [text, setText] = useState("");
  const [asked, setAsked] = useState(false);
  const typed = measured(text);
  const heatC = typed === null ? null : celsiusOf(typed, unit);
  const isOdd = heatC !== null && (heatC < SENSIBLE_C[0] || heatC > SENSIBLE_C[1]);
  const fault = isOdd ? words.odd(temperatureText(heatC, unit)) : numberFault(text, words);
  const save = () => {
    setAsked(true);
    if (heatC === null || isOdd) return;
    void readHeat(nest.id, heatC);
    setText("");
    setAsked(false);
  };
  return (
    <>
      <MeasureField
        label={`${words.reading}, °${unit}`}
        text={text}
        onType={setText}
        fault={asked ? fault : null}
        hint={words.readingHint}
        onEnter={save}
      />
      <div class="acts">
        <Press kind="plain" onPress={save}>
          {words.save}
        </Press>
      </div>
    </>
  );
}
