// The water a setting loses: a tray weighed, the line in its corridor, where it leads, what to change and why.

import { everywhere } from "../app/words/everywhere.ts";
import { status } from "../app/words/machine.ts";
import { setting as settingWords } from "../app/words/rooms.ts";
import { tally } from "../app/words/tally.ts";
import { weigh as words } from "../app/words/weigh.ts";
import { ownWords } from "../book/own-words.ts";
import { airOf } from "../book/readings.ts";
import { type LossOutlook, lossOutlook, type Weighings, weighingsOf } from "../book/weighings.ts";
import { standing } from "../state/standing.ts";
import { sourceTitle } from "../trade/sources.ts";
import { lossTitle, lossUnder } from "./loss-title.ts";
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
  if (!setting) return <Page headline={tally.gone(ownWords(standing.value.keeper.words))} />;
  const view = settingView(totals, setting, now_ms);
  const weighed = weighingsOf(totals, setting);
  const air = airOf(totals, setting, view.batches);
  const outlook = lossOutlook(setting, weighed, air, now_ms);
  return (
    <Page
      over={placeName(totals, setting.place)}
      headline={lossTitle(weighed, outlook)}
      under={lossUnder(weighed, outlook)}
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

function WhyLoss({ weighed, outlook }: { weighed: Weighings; outlook: LossOutlook }) {
  const { target } = outlook;
  const unit = massUnit(standing.value);
  return (
    <details>
      <summary>{everywhere.why}</summary>
      <p>{words.why.loss}</p>
      {[...weighed.trays.entries()].map(([lot, { first, last }]) => (
        <p key={lot ?? ""}>
          {words.why.inputs(
            massText(first.eggG, unit),
            massText(last.eggG, unit),
            last.day.toFixed(0),
            `${(100 * (1 - last.eggG / first.eggG)).toFixed(1)} %`,
          )}
        </p>
      ))}
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
