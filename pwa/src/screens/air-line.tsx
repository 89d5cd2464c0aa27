// The last air reading of a machine in a line: how old it is, and whether it is what the eggs want.
import { airLine as words } from "../app/words/machine.ts";
import { speciesTerms } from "../app/words/species.ts";
import { standing } from "../state/standing.ts";
import type { AirView, Wanted } from "./air-view.ts";
import { degreesText, temperatureText, temperatureUnit } from "./measures.ts";
import { ago } from "./told-time.ts";

/** "37.6 °C, 53 %". */
export function readingText(dryC: number, humidityPct: number | null): string {
  const warmth = temperatureText(dryC, temperatureUnit(standing.value));
  return humidityPct === null ? warmth : `${warmth}, ${Math.round(humidityPct)} %`;
}

/** "both in the band", "1.2 °C above the target, drier than 50 %". */
export function judgement(wanted: Wanted, hasHumidity: boolean): string {
  const { targetC, offC, way, tier, air, humidity, unread, stage } = wanted;
  if (unread) return words.unread[stage];
  if (targetC === null || offC === null) return words.noTarget;
  if (way === null && air === null && hasHumidity) return words.both;
  const off = degreesText(offC, temperatureUnit(standing.value));
  const warmth = way === null ? words.temperature.fine : words.temperature[way](off);
  const grave = tier === "red" ? words.grave(warmth) : warmth;
  if (!hasHumidity) return grave;
  const [low, high] = humidity.map((end) => `${Math.round(end)} %`) as [string, string];
  const moisture =
    air === null ? words.humidity.fine : air === "dry" ? words.humidity.dry(low) : words.humidity.moist(high);
  return `${grave}, ${moisture}`;
}

/** Whether everything that was read is what every species in the machine wants. */
export const isInBand = ({ wanted }: AirView): boolean =>
  wanted.every(({ way, air, unread }) => way === null && air === null && !unread);

const OLD_MS = 24 * 3_600_000;

export function AirLine({ view, now_ms }: { view: AirView; now_ms: number }) {
  const { last, wanted, unchecked } = view;
  if (!last) return <p class="quiet">{words.none}</p>;
  const age = ago(last.atMs, now_ms, words.age);
  const told = wanted.map((one) => {
    const said = judgement(one, last.humidityPct !== null);
    const who = speciesTerms(one.species).name;
    return {
      key: `${one.species} ${one.stage}`,
      said: wanted.length > 1 ? words.forWhom(who, said) : said,
      out: one.way !== null || one.air !== null,
    };
  });
  return (
    <>
      <p>
        <b>{readingText(last.dryC, last.humidityPct)}</b>{" "}
        <span class={now_ms - last.atMs > OLD_MS ? "warned" : "quiet"}>{words.at(age)}</span>
        {told.map((one) => (
          <span key={one.key} class={one.out ? "warned" : "quiet"}>{`, ${one.said}`}</span>
        ))}
      </p>
      {unchecked.length > 0 && (
        <p class="quiet small">{words.unchecked(unchecked.map((gauge) => words.gauges[gauge]))}</p>
      )}
    </>
  );
}
