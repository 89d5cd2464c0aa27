// What to change about the humidity, in words with its source; and what eggs from lower ground need.
import { weigh as words } from "../app/words/weigh.ts";
import type { SettingAir } from "../book/readings.ts";
import type { LossOutlook, Weighings } from "../book/weighings.ts";
import { standing } from "../state/standing.ts";
import { heightM, pressurePa, wetBulbC } from "../trade/air.ts";
import { sourceTitle } from "../trade/sources.ts";
import { BROUGHT_UP_SAYS, broughtUp, broughtUpWords } from "../trade/thin-air.ts";
import { heightText, temperatureText, temperatureUnit } from "./measures.ts";
import { Why } from "./parts/why.tsx";
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
function nothingFor({ setting }: SettingView, { projection, target, again }: LossOutlook): string {
  if (setting.lockedAtMs !== null) return words.rests;
  const isKnown =
    projection && target && projection.lowPct >= target.lowPct && projection.highPct <= target.highPct;
  return again || isKnown ? words.nothing : words.late;
}

/** The wet bulb to aim at, for who reads two bulbs. */
function WetBulb({ humidityPct, air }: { humidityPct: number; air: SettingAir }) {
  const totals = standing.value;
  const unit = temperatureUnit(totals);
  const dry = air.readings.at(-1)?.dryC;
  if (dry === undefined || dry < 0 || dry > 100) return null;
  const wet = wetBulbC(dry, humidityPct, heightM(totals.keeper.altitude_m));
  return <p class="quiet">{words.wetBulb(temperatureText(dry, unit), temperatureText(wet, unit))}</p>;
}

/** Eggs laid on lower ground lose water faster in thin air; those laid at this height do not. */
function BroughtUp({ view, air }: { view: SettingView; air: SettingAir }) {
  const { altitude_m } = standing.value.keeper;
  const unit = temperatureUnit(standing.value);
  const isAsked = view.setting.lockedAtMs === null && view.batches.some((lot) => lot.boughtIn);
  if (!isAsked || !isHeight(altitude_m)) return null;
  const found = broughtUp(altitude_m, air.lastHumidityPct);
  if (found === null) return null;
  return (
    <section class="section">
      <h2>{words.altitude.title}</h2>
      <p>{broughtUpWords(found, heightText(altitude_m, unit))}</p>
      <Why
        about={words.altitude.title}
        formula={BROUGHT_UP_SAYS.map((one) => one.value).join(" ")}
        inputs={[
          {
            name: words.altitude.pressure,
            value: words.altitude.kpa((pressurePa(altitude_m) / 1000).toFixed(1)),
          },
        ]}
        sources={BROUGHT_UP_SAYS.map(({ source, status }) => ({
          title: sourceTitle(source) ?? source,
          status,
        }))}
      />
    </section>
  );
}

/** A height the standard atmosphere knows. */
const isHeight = (m: number | null | undefined): m is number =>
  m !== null && m !== undefined && m >= -500 && m <= 11_000;
