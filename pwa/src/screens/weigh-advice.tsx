// What to change about the humidity, in words with its source; and what eggs from lower ground need.
import { weigh as words } from "../app/words/weigh.ts";
import type { SettingAir } from "../book/readings.ts";
import type { LossOutlook, Weighings } from "../book/weighings.ts";
import { standing } from "../state/standing.ts";
import { pressurePa, STANDARD_PRESSURE_PA, wetBulbC } from "../trade/air.ts";
import { humidityFor } from "../trade/weight-loss.ts";
import { temperatureText, temperatureUnit } from "./measures.ts";
import type { SettingView } from "./setting-view.ts";

interface WeighAdviceProps {
  readonly view: SettingView;
  readonly weighed: Weighings;
  readonly outlook: LossOutlook;
  readonly air: SettingAir;
}

export function WeighAdvice({ view, weighed, outlook, air }: WeighAdviceProps) {
  const { advice, unchecked, projection } = outlook;
  return (
    <>
      {weighed.points.length > 1 && projection && (
        <section class="section">
          <h2>{words.todo}</h2>
          <p>{advice ? <b>{advice.words}</b> : nothingFor(view, outlook)}</p>
          {advice?.humidityPct != null && <WetBulb humidityPct={advice.humidityPct} air={air} />}
          {unchecked && <p>{words.unchecked}</p>}
        </section>
      )}
      <BroughtUp view={view} air={air} />
    </>
  );
}

/** Why nothing is advised: all is well, or it is too late. */
function nothingFor({ setting }: SettingView, { projection, target }: LossOutlook): string {
  if (setting.lockedAtMs !== null) return words.rests;
  const strays =
    projection && target && (projection.lowPct > target.highPct || projection.highPct < target.lowPct);
  return strays ? words.late : words.nothing;
}

/** The wet bulb to aim at, for who reads two bulbs. */
function WetBulb({ humidityPct, air }: { humidityPct: number; air: SettingAir }) {
  const totals = standing.value;
  const unit = temperatureUnit(totals);
  const dry = air.readings.at(-1)?.dryC;
  if (dry === undefined || dry < 0 || dry > 100) return null;
  const wet = wetBulbC(dry, humidityPct, totals.keeper.altitude_m ?? 0);
  return <p class="quiet">{words.wetBulb(temperatureText(dry, unit), temperatureText(wet, unit))}</p>;
}

/** Below that height the air is hardly thinner: 2 % more loss. */
const LEAST_M = 200;
/** The humidity that serves as the example where none was read. */
const EXAMPLE_PCT = 55;

/** Eggs laid on lower ground lose water faster in thin air; those laid at this height do not. */
function BroughtUp({ view, air }: { view: SettingView; air: SettingAir }) {
  const altitude_m = standing.value.keeper.altitude_m ?? 0;
  if (altitude_m < LEAST_M || !view.batches.some((lot) => lot.boughtIn)) return null;
  const more = STANDARD_PRESSURE_PA / pressurePa(altitude_m);
  const from = air.lastHumidityPct ?? EXAMPLE_PCT;
  const to = humidityFor(from, 1, more);
  return (
    <section class="section">
      <h2>{words.altitude.title}</h2>
      <p>{words.altitude.words(altitude_m, ((more - 1) * 100).toFixed(0), from.toFixed(0), to.toFixed(0))}</p>
      <p class="quiet small">{words.altitude.source}</p>
    </section>
  );
}
