// One setting: what it is at, what to do, its batches, its days, its rates as far as known, and what was written.
import { useState } from "preact/hooks";
import { eggs } from "../app/words/everywhere.ts";
import { hatching } from "../app/words/hatching.ts";
import { marks } from "../app/words/marks.ts";
import { meaning } from "../app/words/meaning.ts";
import { papers } from "../app/words/papers.ts";
import { regionOf } from "../app/words/region.ts";
import { setting as words } from "../app/words/rooms.ts";
import { safety } from "../app/words/safety.ts";
import { stageWords } from "../app/words/stages.ts";
import { parts, tally as tallyWords } from "../app/words/tally.ts";
import { weigh } from "../app/words/weigh.ts";
import { due } from "../book/agenda.ts";
import type { Entry } from "../book/entries.ts";
import { living } from "../book/marks.ts";
import { ownWords } from "../book/own-words.ts";
import type { Lot } from "../book/standing.ts";
import { inStage } from "../book/standing.ts";
import { isWhole } from "../state/held.ts";
import { lockDown } from "../state/holding.ts";
import { entries, standing } from "../state/standing.ts";
import { inASentence, speciesNamed } from "../trade/species.ts";
import { CalendarWhy } from "./calendar-why.tsx";
import { batchNames, placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Egg, type EggShape } from "./parts/egg.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SettingPhotos } from "./photos.tsx";
import { PullChicks } from "./pull-chicks.tsx";
import { SettingGauges } from "./setting-gauges.tsx";
import { settingHeadline } from "./setting-headline.ts";
import { SettingLocked } from "./setting-locked.tsx";
import { SettingRates } from "./setting-rates.tsx";
import { SettingStory } from "./setting-story.tsx";
import { SettingStrip } from "./setting-strip.tsx";
import { isDesk, SettingTimeLine, TimeLineToOpen } from "./setting-time-line.tsx";
import { notWritten, type SettingView, settingView } from "./setting-view.ts";
import { speciesName } from "./species-name.ts";
import { TALLIES } from "./tally-plan.ts";
import { clock, dayWords } from "./told-time.ts";

export function SettingScreen({ id }: { id: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const setting = totals.settings.get(totals.rootOf.get(id) ?? id);
  if (!setting) return <Page headline={tallyWords.gone(ownWords(standing.value.keeper.words))} />;
  const view = settingView(totals, setting, now_ms);
  const { zone } = totals.keeper;
  const tasks = due(totals, new Date(now_ms)).tasks.filter((task) => task.setting === setting.id);
  const desk = isDesk();
  const set = `${dayWords(setting.setAtMs, zone)}, ${clock(setting.setAtMs, zone)}`;
  return (
    <Page
      over={`${placeName(totals, setting.place)}, ${inASentence(speciesName(setting.species))}`}
      headline={settingHeadline(view, tasks, now_ms, zone)}
      under={words.set(set, view.eggsSet)}
      wide
    >
      {view.inShell > 0 && !desk && <SettingStrip view={view} />}
      <div class="column">
        <Acts view={view} now_ms={now_ms} />
      </div>
      {desk && <SettingTimeLine view={view} now_ms={now_ms} />}
      <div class="column">
        <SettingGauges view={view} now_ms={now_ms} />
        <Batches view={view} />
        <SettingRates view={view} now_ms={now_ms} />
        {view.calendar && <Days view={view} now_ms={now_ms} />}
        {!desk && <TimeLineToOpen view={view} now_ms={now_ms} />}
        <PaperLinks
          of={`${placeName(totals, setting.place)}, ${set}`}
          links={[
            { path: `papers/setting/${setting.id}.pdf`, what: papers.hatch },
            { path: `papers/cards/${setting.id}.pdf`, what: papers.cards },
            { path: `papers/tally/${setting.id}.pdf`, what: papers.count },
          ]}
        />
        <div class="no-print">
          <SettingPhotos view={view} />
          {isWhole.value && <SettingStory view={view} entries={entries.value} now_ms={now_ms} />}
        </div>
      </div>
    </Page>
  );
}

/** How long before its day lockdown may be done from the page: eggs set late or early are not all alike. */
const LOCKDOWN_OFFERED_DAYS = 3;

function Acts({ view, now_ms }: { view: SettingView; now_ms: number }) {
  const { setting, next } = view;
  const [done, setDone] = useState<readonly Entry[]>([]);
  const waiting = inStage(setting, "set");
  const out = inStage(setting, "hatched");
  const locked = inStage(setting, "locked");
  const isBrokenOff = locked > 0 && setting.lockedAtMs === null;
  const nearing = (days: number) => view.calendar === null || view.day >= view.calendar.lockdown.day - days;
  const can = {
    candle: waiting > 0,
    lockdown: !view.underHen && (isBrokenOff || (waiting > 0 && nearing(LOCKDOWN_OFFERED_DAYS))),
    hatch: view.inShell > 0 && (locked > 0 || nearing(0)),
    open: view.toOpen > 0,
  };
  const underHen = standing.value.places.get(setting.place)?.role === "hen";
  const isWeighed = view.inShell > 0 && setting.lockedAtMs === null && !underHen;
  const shown = TALLIES.filter((what) => can[what]);
  // Where the headline says "Lockdown tomorrow", no candling day is left to come.
  const isCandled = view.calendar?.candle.every(({ day }) => day < view.day) ?? false;
  const main = next === "candle" && isCandled && can.lockdown ? "lockdown" : next;
  return (
    <section class="section" aria-label={words.acts}>
      <div class="acts">
        {shown.map((what) => (
          <a
            key={what}
            class={what === main ? "press main" : "press plain"}
            href={`/setting/${setting.id}/tally/${what}`}
          >
            {words.tallies[what]}
          </a>
        ))}
        {next === "lockdown" && setting.lockedAtMs === null && (
          <Press kind="plain" onPress={() => void lockDown(setting.id).then(setDone)}>
            {locked === 0
              ? words.lockAll(eggs(waiting))
              : waiting > 0
                ? words.lockRest(eggs(waiting))
                : words.lockOnly}
          </Press>
        )}
        {isWeighed && (
          <a class="press plain" href={`/setting/${setting.id}/weigh`}>
            {weigh.link}
          </a>
        )}
        {can.hatch && (
          <a class="press plain" href={`/setting/${setting.id}/hatching`}>
            {hatching.link}
          </a>
        )}
        <a class="press plain" href={`/setting/${setting.id}/meaning`}>
          {meaning.link}
        </a>
      </div>
      {out > 0 && <PullChicks view={view} now_ms={now_ms} />}
      <SettingLocked setting={setting} now_ms={now_ms} done={done} />
      {next === "hatch" && (
        <Notice>
          <p>{safety.helping}</p>
          <p>{safety.hands}</p>
        </Notice>
      )}
    </section>
  );
}

const SHAPES: Readonly<Record<string, EggShape>> = {
  set: "hand",
  locked: "locked",
  taken: "gone",
  unaccounted: "missing",
  brooding: "hatched",
  growing: "hatched",
  flock: "hatched",
  parted: "hatched",
  hatched: "hatched",
  died: "lost",
  culled: "lost",
};
const ORDER = ["set", "locked", "hatched", "brooding", "growing", "flock", "parted", "died", "culled"];
const LYING = ["clear", "blood_ring", "quitter", "cracked", "rotten", "taken", "unaccounted", "unhatched"];

function Batches({ view }: { view: SettingView }) {
  const names = batchNames(standing.value, view.batches);
  return (
    <section class="section">
      <h2>{words.batches}</h2>
      <ul class="rows">
        {view.batches.map((lot) => (
          <li key={lot.id}>
            <div class="head">
              <h3>{names.get(lot.id)}</h3>
              <span class="quiet">
                {[words.eggsWere(lot.n), lot.sign ? tallyWords.sign(lot.sign) : null]
                  .filter(Boolean)
                  .join(". ")}
              </span>
            </div>
            <StageList lot={lot} />
            {living(lot) > 0 && (
              <div class="acts">
                <a
                  class="press plain"
                  href={`/mark/${lot.id}`}
                  aria-label={`${marks.mark}, ${names.get(lot.id)}`}
                >
                  {marks.mark}
                </a>
              </div>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function StageList({ lot }: { lot: Lot }) {
  const region = regionOf(standing.value.keeper.region);
  const rank = (stage: string) => (ORDER.includes(stage) ? ORDER.indexOf(stage) : ORDER.length);
  const stages = [...lot.stages].filter(([, n]) => n !== 0).sort(([a], [b]) => rank(a) - rank(b));
  return (
    <>
      <ul class="stage-list">
        {stages.flatMap(([stage, n]) => {
          const unwritten = stage === "parted" ? notWritten(lot) : 0;
          const told = [[n - unwritten, stageWords(stage, region).after] as const];
          return [...told, [unwritten, parts.notWritten] as const]
            .filter(([some]) => some !== 0)
            .map(([some, what]) => (
              <li key={what}>
                <Egg shape={SHAPES[stage] ?? (stage as EggShape)} height={24} lying={LYING.includes(stage)} />
                {`${some} ${what}`}
              </li>
            ));
        })}
      </ul>
      {[...lot.open].map(([stage, n]) => (
        <p class="quiet small" key={stage}>
          {words.possible(n, stageWords(stage, region).after, ownWords(standing.value.keeper.words))}
        </p>
      ))}
    </>
  );
}

function Days({ view, now_ms }: { view: SettingView; now_ms: number }) {
  const { calendar } = view;
  const species = speciesNamed(view.setting.species);
  if (!calendar) return null;
  const { zone } = standing.value.keeper;
  const lines = [
    ...calendar.candle.map(({ day, atMs }) => ({ what: words.candleOn(day), from: atMs, to: atMs })),
    ...[calendar.lockdown]
      .filter(() => !view.underHen)
      .map(({ day, atMs }) => ({ what: words.lockdownOn(day), from: atMs, to: atMs })),
    { what: words.hatchOn, from: calendar.hatchFrom.atMs, to: calendar.hatchTo.atMs },
  ];
  return (
    <section class="section">
      <h2>{words.calendar}</h2>
      <ul class="lines">
        {lines.map(({ what, from, to }) => (
          <li key={what} class={to < now_ms ? "past" : ""}>
            <span>{what}</span>
            <span class="nowrap">
              {from === to ? dayWords(from, zone) : `${dayWords(from, zone)} – ${dayWords(to, zone)}`}
            </span>
          </li>
        ))}
      </ul>
      {species && (
        <CalendarWhy species={species} lockdownDay={calendar.lockdown.day} underHen={view.underHen} />
      )}
    </section>
  );
}
