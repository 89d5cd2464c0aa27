// When the chicks are likely: the server's last forecast with its date, or the window of the species, and which it is.
import { hatching as words } from "../app/words/hatching.ts";
import { hatchForecast } from "../state/hatch-forecast.ts";
import { standing } from "../state/standing.ts";
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
    </section>
  );
}
