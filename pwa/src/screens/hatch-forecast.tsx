// When the chicks are likely: the server's last forecast with its date, or the window of the species, and which it is.
import { hatching as words } from "../app/words/hatching.ts";
import { type HatchForecast, hatchForecast } from "../state/hatch-forecast.ts";
import { standing } from "../state/standing.ts";
import { HATCHES_USED, SPECIES_WEIGHT, USUAL_SPREAD_H } from "../trade/hatch-hours.ts";
import { sourceTitle } from "../trade/sources.ts";
import { figuresOf, type Species, speciesNamed } from "../trade/species.ts";
import { Why, type WhyInput } from "./parts/why.tsx";
import type { SettingView } from "./setting-view.ts";
import { clock, dayWords } from "./told-time.ts";

export function Forecast({ view }: { view: SettingView }) {
  const { zone } = standing.value.keeper;
  const when = (at_ms: number) => `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  const found = hatchForecast.value?.setting === view.setting.id ? hatchForecast.value : null;
  const { calendar } = view;
  return (
    <section class="section">
      <h2>{words.forecast.title}</h2>
      {found ? (
        <>
          <p>
            <b>{words.forecast.between(when(found.fromMs), when(found.toMs))}</b>
          </p>
          <p class="quiet">
            {words.forecast.rests(found.hatches)} {words.forecast.server(when(found.gotMs))}
          </p>
        </>
      ) : (
        <p>
          {calendar
            ? words.forecast.species(
                dayWords(calendar.hatchFrom.atMs, zone),
                dayWords(calendar.hatchTo.atMs, zone),
              )
            : words.forecast.unknown}
        </p>
      )}
      <ForecastWhy species={speciesNamed(view.setting.species)} found={found} />
    </section>
  );
}

interface ForecastWhyProps {
  readonly species: Species | undefined;
  readonly found: HatchForecast | null;
}

function ForecastWhy({ species, found }: ForecastWhyProps) {
  if (!species) return null;
  const { forecast } = words;
  const { period } = figuresOf(species);
  const shown = [period, ...(found ? [USUAL_SPREAD_H, SPECIES_WEIGHT, HATCHES_USED] : [])];
  const read = new Map(shown.map(({ source, status }) => [source, status]));
  const inputs: WhyInput[] = [{ name: forecast.inputs.period, value: forecast.days(...period.value) }];
  if (found) {
    const { spread, hatches, moved } = forecast.inputs;
    inputs.push({ name: spread, value: forecast.hours(USUAL_SPREAD_H.value) });
    inputs.push({ name: hatches, value: String(found.hatches) });
    if (found.shiftH !== null) inputs.push({ name: moved, value: forecast.moved(Math.round(found.shiftH)) });
  }
  return (
    <Why
      about={forecast.about}
      formula={found ? forecast.byServer(SPECIES_WEIGHT.value, HATCHES_USED.value) : forecast.bySpecies}
      inputs={inputs}
      sources={[...read].map(([source, status]) => ({ title: sourceTitle(source) ?? source, status }))}
    />
  );
}
