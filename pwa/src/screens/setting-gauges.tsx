// What thermometer and scales say of a setting, on its own page: the last air against its band, and the water lost.
import { setting as words } from "../app/words/rooms.ts";
import { airOf } from "../book/readings.ts";
import { lossOutlook, weighingsOf } from "../book/weighings.ts";
import { standing } from "../state/standing.ts";
import { AirLine } from "./air-line.tsx";
import { airView } from "./air-view.ts";
import { lossTitle, lossUnder } from "./loss-title.ts";
import { type SettingView, whereIs } from "./setting-view.ts";

/** Nothing under a hen, who keeps air and water herself, and nothing when all is out. */
export function SettingGauges({ view, now_ms }: { view: SettingView; now_ms: number }) {
  const totals = standing.value;
  const { setting } = view;
  const place = whereIs(setting);
  if (view.inShell === 0 || totals.places.get(place)?.role === "hen") return null;
  const weighed = weighingsOf(totals, setting);
  const outlook = lossOutlook(setting, weighed, airOf(totals, setting, view.batches), now_ms);
  return (
    <section class="section">
      <h2>{words.gauges}</h2>
      <AirLine view={airView(totals, place, [view], now_ms)} now_ms={now_ms} />
      {weighed.points.length > 0 && (
        <p>
          <b>{lossTitle(weighed, outlook)}.</b> <span class="quiet">{lossUnder(weighed, outlook)}</span>
        </p>
      )}
    </section>
  );
}
