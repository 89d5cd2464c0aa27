// How eggs are kept before setting and which are chosen, each figure with its source.
import { keepingEggs as words } from "../app/words/eggs.ts";
import { standing } from "../state/standing.ts";
import { sourceTitle } from "../trade/sources.ts";
import { CHOOSING, KEEPING, type Sourced } from "../trade/storage.ts";
import { Why } from "./parts/why.tsx";
import { warmthTold } from "./told-warmth.ts";

type Span = number | readonly [number, number];

export function EggsKeeping() {
  const unit = standing.value.keeper.temperature;
  const warm = (value: Span) => warmthTold(value, unit);
  const humid = (value: Span) => `${typeof value === "number" ? value : value.join("–")} %`;
  const advised = <T,>(list: readonly Sourced<T>[]) => list[0]?.value;
  const [warmth, humidity, growth] = [KEEPING.temperatureF, KEEPING.humidityPct, KEEPING.growsAboveF].map(
    (list: readonly Sourced<Span>[]) => advised(list),
  );
  const figures = [
    ...rowsOf(KEEPING.temperatureF, (value) => words.warmth(warm(value))),
    ...rowsOf(KEEPING.humidityPct, (value) => words.humidity(humid(value))),
    ...rowsOf(KEEPING.growsAboveF, (value) => words.growth(warm(value))),
  ];
  return (
    <>
      <section class="section">
        <h2>{words.title}</h2>
        <p>
          {warmth !== undefined && `${words.warmth(warm(warmth))}, `}
          {humidity !== undefined && `${words.humidity(humid(humidity))}. `}
          {growth !== undefined && `${words.growth(warm(growth))}. `}
          {words.cold} {words.days(KEEPING.worseAfter.value, KEEPING.mostDays.value)}
        </p>
        {KEEPING.sentences.slice(0, 2).map(({ value }) => (
          <p key={value}>{value}</p>
        ))}
        <Why
          about={words.about}
          formula={`${words.differ} ${words.formula}`}
          inputs={figures}
          sources={sourcesOf([KEEPING.worseAfter, KEEPING.mostDays, ...KEEPING.sentences])}
        >
          {KEEPING.sentences.slice(2).map(({ value }) => (
            <p key={value}>{value}</p>
          ))}
        </Why>
      </section>
      <Choosing />
    </>
  );
}

/** Which eggs to set, in two sentences. */
export function Choosing() {
  return (
    <section class="section">
      <h2>{words.choosing}</h2>
      {CHOOSING.map(({ value }) => (
        <p key={value}>{value}</p>
      ))}
      <Why about={words.aboutChoosing} formula={words.readIn} sources={sourcesOf(CHOOSING)} />
    </section>
  );
}

function rowsOf<T>(list: readonly Sourced<T>[], told: (value: T) => string) {
  return list.map(({ value, source }) => ({ name: told(value), value: sourceTitle(source) ?? source }));
}

function sourcesOf(list: readonly Sourced<unknown>[]) {
  const seen = new Map(list.map(({ source, status }) => [source, status]));
  return [...seen].map(([source, status]) => ({ title: sourceTitle(source) ?? source, status }));
}
