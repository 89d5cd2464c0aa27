// Why a figure of the air is what it is: the formula, what went into it, and where the target was read.
import { air as words } from "../app/words/air.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { airLine, status } from "../app/words/machine.ts";
import { speciesTerms } from "../app/words/species.ts";
import { lastCheck } from "../book/readings.ts";
import { standing } from "../state/standing.ts";
import { heightM, pressurePa } from "../trade/air.ts";
import { AMBER_ABOVE_C, AMBER_BELOW_C, STILL_AIR_MORE_C, targetSource } from "../trade/climate.ts";
import { ventDays } from "../trade/setpoints.ts";
import { sourceTitle } from "../trade/sources.ts";
import type { AirView } from "./air-view.ts";
import { degreesText, temperatureText, temperatureUnit } from "./measures.ts";

export function AirWhy({ view, place }: { view: AirView; place: string }) {
  const totals = standing.value;
  const { last, wanted } = view;
  const unit = temperatureUnit(totals);
  if (!last) return null;
  const isStill = totals.places.get(place)?.air === "still";
  return (
    <details>
      <summary>{everywhere.why}</summary>
      {last.wetC !== null && last.humidityPct !== null && (
        <>
          <p>{words.why.humidity}</p>
          <p>
            {words.why.inputs(
              temperatureText(last.dryC, unit),
              temperatureText(last.wetC, unit),
              (pressurePa(heightM(totals.keeper.altitude_m)) / 1000).toFixed(1),
              `${last.humidityPct.toFixed(1)} %`,
            )}
          </p>
        </>
      )}
      {last.wetC === null && last.humidityPct !== null && <p>{words.why.hygrometer}</p>}
      {last.corrected && <Corrections place={place} byMs={last.atMs} />}
      {wanted.map((one) => {
        const who = speciesTerms(one.species).name;
        const source = targetSource(one.species, one.stage);
        return (
          <div key={`${one.species} ${one.stage}`}>
            {one.targetC !== null && source && (
              <p>
                {words.why.target(
                  who,
                  temperatureText(one.targetC, unit),
                  `${sourceTitle(source.source) ?? source.source} (${status[source.status] ?? source.status})`,
                )}
              </p>
            )}
            <p>
              {words.why.range(who, String(Math.round(one.humidity[0])), String(Math.round(one.humidity[1])))}
            </p>
            <Vents species={one.species} who={who} />
          </div>
        );
      })}
      {isStill && <p>{words.why.still(degreesText(STILL_AIR_MORE_C, unit))}</p>}
      <p>{words.why.band(degreesText(AMBER_ABOVE_C, unit), degreesText(AMBER_BELOW_C, unit))}</p>
    </details>
  );
}

/** By how much each gauge is put right. */
function Corrections({ place, byMs }: { place: string; byMs: number }) {
  const totals = standing.value;
  const unit = temperatureUnit(totals);
  return (
    <>
      {(["dry", "wet", "humidity"] as const).map((gauge) => {
        const check = lastCheck(totals, place, gauge, byMs);
        const off = check ? check.body.true_value - check.body.reads : 0;
        if (off === 0) return null;
        const by = gauge === "humidity" ? `${off.toFixed(1)} %` : degreesText(off, unit);
        return (
          <p key={gauge}>
            {words.why.corrected(airLine.gauges[gauge], `${off > 0 ? "+" : "−"}${by.replace("-", "")}`)}
          </p>
        );
      })}
    </>
  );
}

/** When its vents are opened: figures that nobody has checked against their text say so. */
function Vents({ species, who }: { species: string; who: string }) {
  const days = ventDays(species);
  if (days === undefined) return null;
  const [quarter, more] = days;
  const source = `${sourceTitle(quarter.source) ?? quarter.source} (${status[quarter.status] ?? quarter.status})`;
  return <p>{words.why.vents(who, quarter.value, more.value, source)}</p>;
}
