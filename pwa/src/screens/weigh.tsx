// The water a setting loses: a tray weighed, the line in its corridor, where it leads, what to change and why.

import { everywhere } from "../app/words/everywhere.ts";
import { status } from "../app/words/machine.ts";
import { setting as settingWords } from "../app/words/rooms.ts";
import { tally } from "../app/words/tally.ts";
import { weigh as words } from "../app/words/weigh.ts";
import { airOf } from "../book/readings.ts";
import { type LossOutlook, lossOutlook, type Weighings, weighingsOf } from "../book/weighings.ts";
import { standing } from "../state/standing.ts";
import { sourceTitle } from "../trade/sources.ts";
import { massText, massUnit } from "./measures.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { settingView } from "./setting-view.ts";
import { WeighAdvice } from "./weigh-advice.tsx";
import { WeighLine } from "./weigh-line.tsx";
import { WeighTray } from "./weigh-tray.tsx";

export function WeighScreen({ id }: { id: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const setting = totals.settings.get(totals.rootOf.get(id) ?? id);
  if (!setting) return <Page headline={tally.gone} />;
  const view = settingView(totals, setting, now_ms);
  const weighed = weighingsOf(totals, setting);
  const air = airOf(totals, setting, view.batches);
  const outlook = lossOutlook(setting, weighed, air, now_ms);
  return (
    <Page
      over={placeName(totals, setting.place)}
      headline={titleOf(weighed, outlook)}
      under={underOf(weighed, outlook)}
    >
      {weighed.points.length > 1 && <WeighLine view={view} weighed={weighed} outlook={outlook} />}
      <WeighAdvice view={view} weighed={weighed} outlook={outlook} air={air} />
      <WeighTray view={view} weighed={weighed} now_ms={now_ms} />
      {weighed.points.length > 1 && <WhyLoss weighed={weighed} outlook={outlook} />}
      <div class="acts section">
        <a class="press plain" href={`/setting/${setting.id}`}>
          {settingWords.acts}
        </a>
      </div>
    </Page>
  );
}

const pct = (value: number) => `${value.toFixed(1)} %`;

/** What the line says, in a few words. */
export function titleOf({ points }: Weighings, { projection, target }: LossOutlook): string {
  const last = points.at(-1);
  if (!last) return words.title.none;
  if (!projection || points.length < 2) return words.title.once;
  if (!target) return words.title.noTarget(pct(last.lossPct));
  const { lowPct, middlePct, highPct } = projection;
  if (lowPct > target.highPct) return words.title.fast;
  if (highPct < target.lowPct) return words.title.slow;
  if (highPct - lowPct > target.highPct - target.lowPct) return words.title.wide;
  if (middlePct > target.highPct) return words.title.perhapsFast;
  return middlePct < target.lowPct ? words.title.perhapsSlow : words.title.fine;
}

function underOf({ points }: Weighings, { projection, target }: LossOutlook): string {
  const last = points.at(-1);
  if (!last) return words.noneRemedy;
  if (!projection || !target || points.length < 2) return words.onceRemedy;
  return words.under(
    pct(last.lossPct),
    last.day.toFixed(0),
    pct(projection.middlePct),
    target.lowPct.toFixed(1),
    pct(target.highPct),
  );
}

function WhyLoss({ weighed, outlook }: { weighed: Weighings; outlook: LossOutlook }) {
  const { target } = outlook;
  const unit = massUnit(standing.value);
  return (
    <details>
      <summary>{everywhere.why}</summary>
      <p>{words.why.loss}</p>
      <p>{words.why.line}</p>
      <p>{words.why.band(massText(weighed.stepG, unit), weighed.errorPct.toFixed(2))}</p>
      {target && (
        <p>
          {words.why.corridor(
            `${target.lowPct.toFixed(1)} to ${target.highPct.toFixed(1)} %`,
            sourceTitle(target.source) ?? target.source,
            status[target.status] ?? target.status,
          )}
        </p>
      )}
      <p>{words.why.humidity}</p>
      {weighed.recounted.map((one) => (
        <p key={one.day}>{words.why.recounted(one.day.toFixed(0), one.n, one.before)}</p>
      ))}
    </details>
  );
}
