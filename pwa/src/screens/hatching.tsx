// The hatch of a setting as it goes on: what comes when, what came out at each look, when to take chicks out.

import { useEffect } from "preact/hooks";
import { inDays } from "../app/words/due.ts";
import { hatching as words } from "../app/words/hatching.ts";
import { setting as settingWords } from "../app/words/rooms.ts";
import { safety } from "../app/words/safety.ts";
import { tally } from "../app/words/tally.ts";
import { hatchesOf, oldestOfLast } from "../book/chores.ts";
import { type HatchSoFar, hatchSoFar } from "../book/hatch-looks.ts";
import { heldMs } from "../book/moments.ts";
import { ownWords } from "../book/own-words.ts";
import { inStage } from "../book/standing.ts";
import { askForecast } from "../state/hatch-forecast.ts";
import { standing } from "../state/standing.ts";
import { FEED_AT_LATEST_H, FEED_BY_H, PIP_TO_OUT_H, WATERFOWL_PIP_TO_OUT_H } from "../trade/hatch-hours.ts";
import { sourceTitle } from "../trade/sources.ts";
import { HatchEarlier } from "./hatch-earlier.tsx";
import { Forecast } from "./hatch-forecast.tsx";
import { HatchLooks } from "./hatch-looks.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Why } from "./parts/why.tsx";
import { SettingPhotos } from "./photos.tsx";
import { PullChicks } from "./pull-chicks.tsx";
import { SettingStrip } from "./setting-strip.tsx";
import { type SettingView, settingView, whereIs } from "./setting-view.ts";
import { clock, daysBetween, dayWords } from "./told-time.ts";

const HOUR_MS = 3_600_000;

export function HatchingScreen({ id }: { id: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const setting = totals.settings.get(totals.rootOf.get(id) ?? id);
  useEffect(() => {
    if (setting) void askForecast(setting.id);
  }, [setting?.id]);
  if (!setting) return <Page headline={tally.gone(ownWords(standing.value.keeper.words))} />;
  const view = settingView(totals, setting, now_ms);
  const sofar = hatchSoFar(setting, view.batches);
  return (
    <Page
      over={placeName(totals, whereIs(setting))}
      headline={titleOf(view, sofar, now_ms)}
      under={nextOf(view)}
    >
      {view.inShell > 0 && <SettingStrip view={view} />}
      <div class="acts">
        {(view.next === "lockdown" || view.next === "hatch") && (
          <a
            class="press main"
            href={`/setting/${setting.id}/tally/${view.next === "lockdown" ? "lockdown" : "hatch"}`}
          >
            {view.next === "lockdown" ? settingWords.tallies.lockdown : words.look}
          </a>
        )}
        <a class="press plain" href={`/setting/${setting.id}`}>
          {settingWords.acts}
        </a>
      </div>
      <Comes view={view} sofar={sofar} now_ms={now_ms} />
      <Pull view={view} sofar={sofar} now_ms={now_ms} />
      <HatchLooks view={view} sofar={sofar} />
      <HatchEarlier view={view} />
      <SettingPhotos view={view} />
      {view.inShell > 0 && <Forecast view={view} />}
      <Notice>
        <p>{safety.helping}</p>
        <p>{safety.hands}</p>
        <p class="quiet">{safety.rule}</p>
      </Notice>
    </Page>
  );
}

function titleOf(view: SettingView, sofar: HatchSoFar, now_ms: number): string {
  const { zone } = standing.value.keeper;
  const { calendar, hatched, inShell, eggsSet } = view;
  if (inShell === 0) return words.title.over(hatched, eggsSet);
  if (hatched > 0) return words.title.running(hatched, inShell);
  if (sofar.pippedNow > 0) return words.title.pipped(sofar.pippedNow);
  if (!calendar || now_ms >= calendar.hatchFrom.atMs) return words.title.due;
  const [what, at_ms] =
    view.setting.lockedAtMs === null && now_ms < calendar.lockdown.atMs
      ? ([words.title.lockdown, calendar.lockdown.atMs] as const)
      : ([words.title.wait, calendar.hatchFrom.atMs] as const);
  return what(inDays(daysBetween(now_ms, at_ms, zone)));
}

function nextOf({ next, hatched }: SettingView): string | null {
  if (next === null) return words.next.done;
  if (next === "candle") return null;
  if (next === "open") return words.next.open;
  if (next === "lockdown") return words.next.lockdown;
  return next === "hatch" && hatched > 0 ? words.next.look : words.next.wait;
}

interface PartProps {
  readonly view: SettingView;
  readonly sofar: HatchSoFar;
  readonly now_ms: number;
}

/** The countdown, then what was seen first and last. */
function Comes({ view, sofar, now_ms }: PartProps) {
  const { zone } = standing.value.keeper;
  const { calendar, setting } = view;
  const when = (at_ms: number | null) =>
    at_ms === null ? words.notSeen : `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  const left = (at_ms: number) => {
    const hours = Math.floor(Math.max(0, at_ms - now_ms) / HOUR_MS);
    return at_ms <= now_ms ? words.passed : words.left(Math.floor(hours / 24), hours % 24);
  };
  const lockdown = (at_ms: number) => {
    const late = daysBetween(at_ms, now_ms, zone); // from the day after on, as under Due
    return late > 0 ? words.late(late) : left(at_ms);
  };
  return (
    <section class="section">
      <h2>{words.countdown}</h2>
      <ul class="lines">
        {calendar && (
          <li>
            <span>{words.toLockdown}</span>
            <b>
              {setting.lockedAtMs === null
                ? lockdown(calendar.lockdown.atMs)
                : words.lockedDown(when(setting.lockedAtMs))}
            </b>
          </li>
        )}
        {calendar && sofar.firstOutMs === null && (
          <li>
            <span>{words.toHatch}</span>
            <b>{left(calendar.hatchFrom.atMs)}</b>
          </li>
        )}
        <li>
          <span>{words.firstPip}</span>
          <b>{when(sofar.firstPipMs)}</b>
        </li>
        <li>
          <span>{words.firstOut}</span>
          <b>{when(sofar.firstOutMs)}</b>
        </li>
        {sofar.lastOutMs !== null && (
          <li>
            <span>{words.lastOut}</span>
            <b>{when(sofar.lastOutMs)}</b>
          </li>
        )}
      </ul>
    </section>
  );
}

/** The clock from the first of the chicks that are still inside, and the lid. */
function Pull({ view, sofar, now_ms }: PartProps) {
  const { zone } = standing.value.keeper;
  const inside = inStage(view.setting, "hatched");
  const oldest = oldestOfLast(hatchesOf(view.setting, view.batches), inside);
  if (oldest === undefined || inside <= 0) return <PullChicks view={view} now_ms={now_ms} />;
  const firstMs = heldMs(oldest.atMs);
  const after = (hours: number) => {
    const at_ms = firstMs + hours * HOUR_MS;
    return `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  };
  const outFor = (now_ms - firstMs) / HOUR_MS;
  return (
    <section class="section">
      <h2>{words.pull.title}</h2>
      <p>
        <b>{words.pull.by(after(FEED_BY_H.value), after(FEED_AT_LATEST_H.value))}</b>
      </p>
      {outFor >= FEED_BY_H.value && <p class="warned">{words.pull.late(Math.floor(outFor))}</p>}
      <p>
        {sofar.pippedNow > 0
          ? words.pull.lid(sofar.pippedNow, FEED_AT_LATEST_H.value)
          : sofar.firstPipMs === null
            ? words.pull.lidUnseen
            : words.pull.lidOpen}
      </p>
      <PullChicks view={view} now_ms={now_ms} />
      <PullWhy firstOut={after(0)} />
    </section>
  );
}

function PullWhy({ firstOut }: { firstOut: string }) {
  const { inputs, hours, span } = words.pull;
  const figures = [FEED_BY_H, FEED_AT_LATEST_H, PIP_TO_OUT_H, WATERFOWL_PIP_TO_OUT_H];
  const read = new Map(figures.map((one) => [one.source, one]));
  return (
    <Why
      about={words.pull.about}
      formula={words.pull.why}
      inputs={[
        { name: inputs.firstOut, value: firstOut },
        { name: inputs.feedBy, value: hours(FEED_BY_H.value) },
        { name: inputs.atLatest, value: hours(FEED_AT_LATEST_H.value) },
        { name: inputs.pipToOut, value: hours(span(...PIP_TO_OUT_H.value)) },
        { name: inputs.waterfowl, value: hours(WATERFOWL_PIP_TO_OUT_H.value) },
      ]}
      sources={[...read.values()].map(({ source, status }) => ({
        title: sourceTitle(source) ?? source,
        status,
      }))}
    />
  );
}
