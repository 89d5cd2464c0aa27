// One machine on the rooms screen: what is in it, how far it is, the air in it, and all that is done there in one tap.

import { hatching } from "../app/words/hatching.ts";
import { machine as machineWords } from "../app/words/machine.ts";
import { rooms as words } from "../app/words/rooms.ts";
import { young } from "../app/words/species.ts";
import { weigh } from "../app/words/weigh.ts";
import type { Place } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { warmthsApart } from "../book/sharing.ts";
import { inStage } from "../book/standing.ts";
import { type Turning, turningAt } from "../book/turning.ts";
import { standing } from "../state/standing.ts";
import { inASentence } from "../trade/species.ts";
import { AirLine } from "./air-line.tsx";
import { airView } from "./air-view.ts";
import { cutAt, PowerLine } from "./power-line.tsx";
import { QuickActs } from "./quick-acts.tsx";
import { SettingStrip } from "./setting-strip.tsx";
import type { SettingView } from "./setting-view.ts";
import { speciesName } from "./species-name.ts";
import { clock, dateWords, daysBetween, dayWords } from "./told-time.ts";
import { degreesTold } from "./told-warmth.ts";

interface MachineProps {
  readonly id: string;
  readonly place: Place;
  readonly views: readonly SettingView[];
  /** Settings that ask for something today. */
  readonly asked: ReadonlySet<string>;
  readonly now_ms: number;
}

export function Machine({ id, place, views, asked, now_ms }: MachineProps) {
  const inShell = views.reduce((sum, view) => sum + view.inShell, 0);
  const isHen = place.role === "hen";
  return (
    <section class="room" aria-label={place.name}>
      <div class="head">
        <h2>{place.name}</h2>
        <span class="quiet">{inShell > 0 ? words.eggsIn(inShell) : words.emptyMachine}</span>
      </div>
      {views.map((view) => (
        <Running key={view.setting.id} view={view} asked={asked.has(view.setting.id)} underHen={isHen} />
      ))}
      {isHen && inShell > 0 && <p class="quiet">{machineWords.hen}</p>}
      {id && !isHen && inShell > 0 && <AtWork id={id} place={place} views={views} now_ms={now_ms} />}
      {id && !isHen && views.length === 0 && <Warming id={id} name={place.name} now_ms={now_ms} />}
      {id && views.length === 0 && (
        <div class="acts">
          <a class="press firm" href={`/rooms/set?place=${id}`}>
            {words.setHere}
          </a>
        </div>
      )}
      {id && views.length > 0 && (
        <p class="small section-tail">
          <a class="press bare" href={`/rooms/set?place=${id}`}>
            {words.setAgain}
          </a>
        </p>
      )}
    </section>
  );
}

/** A machine that waits for eggs: run it, read it and check its gauges first. */
function Warming({ id, name, now_ms }: { id: string; name: string; now_ms: number }) {
  const view = airView(standing.value, id, [], now_ms);
  return (
    <>
      {view.last && <AirLine view={view} now_ms={now_ms} />}
      <p class="quiet">{machineWords.before}</p>
      <fieldset class="quick" aria-label={machineWords.acts(name)}>
        <a class="press plain" href={`/rooms/${id}/air`}>
          {machineWords.air}
        </a>
        <a class="press plain" href={`/rooms/${id}/gauge`}>
          {machineWords.gauge}
        </a>
      </fieldset>
    </>
  );
}

/** What a machine with eggs in it is doing: its air, its power, its turns, and the acts. */
function AtWork({ id, place, views, now_ms }: Omit<MachineProps, "asked">) {
  const totals = standing.value;
  const { zone } = totals.keeper;
  const within = views.filter((view) => view.inShell > 0);
  const turned = within.filter((view) => view.setting.lockedAtMs === null);
  const resting = within.filter((view) => view.setting.lockedAtMs !== null);
  const since = Math.min(...turned.map((view) => view.setting.setAtMs));
  const byHand = place.turns !== "auto" && turned.length > 0;
  const turning = byHand ? turningAt(totals, id, since, now_ms) : null;
  const cut = cutAt(totals, id, now_ms);
  const dates = (list: readonly SettingView[]) =>
    list.map((one) => dateWords(one.setting.setAtMs, zone)).join(", ");
  return (
    <>
      <AirLine view={airView(totals, id, within, now_ms)} now_ms={now_ms} />
      {cut && <PowerLine cut={cut} place={id} now_ms={now_ms} />}
      {turning && <TurningLine turning={turning} now_ms={now_ms} />}
      {resting.length > 0 && turned.length === 0 && (
        <p class="quiet">{machineWords.resting(dates(resting))}</p>
      )}
      {resting.length > 0 && turned.length > 0 && (
        <p class="warned">{machineWords.clash(dates(resting), dates(turned))}</p>
      )}
      {warmths(turned, place.air).map((told) => (
        <p class="warned" key={told}>
          {told}
        </p>
      ))}
      <QuickActs
        place={id}
        name={place.name}
        now_ms={now_ms}
        next={turning?.next ?? null}
        isOff={cut?.untilMs === null}
      />
    </>
  );
}

/** Kinds of eggs that want another warmth than the first set among those that are still turned. */
function warmths(turned: readonly SettingView[], air: Place["air"]): string[] {
  const { temperature } = standing.value.keeper;
  const [first, ...others] = new Set(turned.map(({ setting }) => setting.species));
  if (first === undefined) return [];
  return others.flatMap((other) => {
    const apart = warmthsApart(first, other, air);
    if (apart === null) return [];
    const [firstC, otherC] = apart.map((celsius) => degreesTold(celsius, temperature));
    const eggsOf = (species: string) => machineWords.eggsOf(speciesName(species));
    return machineWords.warmths(eggsOf(first), firstC ?? "", eggsOf(other), otherC ?? "");
  });
}

function TurningLine({ turning, now_ms }: { turning: Turning; now_ms: number }) {
  const { today, lastMs, side } = turning;
  const { zone } = standing.value.keeper;
  const { turns } = machineWords;
  const last =
    lastMs === null
      ? null
      : daysBetween(lastMs, now_ms, zone) === 0
        ? clock(lastMs, zone)
        : `${dayWords(lastMs, zone)}, ${clock(lastMs, zone)}`;
  const told =
    last === null
      ? turns.never
      : today === 0
        ? turns.none(last)
        : today % 2 === 1
          ? turns.odd(today)
          : turns.even(today);
  return (
    <details class="turns">
      <summary>{side ? `${told} ${machineWords.sideUp[side]}.` : told}</summary>
      <p>{turns.why}</p>
      <p class="quiet">{turns.source}</p>
    </details>
  );
}

interface RunningProps {
  readonly view: SettingView;
  readonly asked: boolean;
  readonly underHen: boolean;
}

function Running({ view, asked, underHen }: RunningProps) {
  const { setting, inShell, hatched, toOpen, next } = view;
  const page = `/setting/${setting.id}`;
  const set = dateWords(setting.setAtMs, standing.value.keeper.zone);
  const told = [
    words.since(set),
    inShell > 0 ? words.speciesEggs(inShell, inASentence(speciesName(setting.species))) : null,
    hatched > 0 ? `${young(hatched, setting.species)} hatched` : null,
    inShell === 0 && toOpen > 0 ? words.waiting(toOpen) : null,
  ].filter(Boolean);
  const isHatching = next === "hatch" || inStage(setting, "hatched") > 0;
  return (
    <div class="running">
      {inShell > 0 && <SettingStrip view={view} />}
      <p>{told.join(", ")}</p>
      <div class="quick">
        <a
          class="press plain"
          href={page}
          aria-label={words.pageOf(set, ownWords(standing.value.keeper.words).hatch.one)}
        >
          {words.page}
        </a>
        {!underHen && inShell > 0 && setting.lockedAtMs === null && (
          <a class="press plain" href={`${page}/weigh`}>
            {weigh.link}
          </a>
        )}
        {isHatching && (
          <a class="press plain" href={`${page}/hatching`}>
            {hatching.link}
          </a>
        )}
        {next && (
          <a class={asked ? "press main" : "press firm"} href={`${page}/tally/${next}`}>
            {words.act[next]}
          </a>
        )}
      </div>
    </div>
  );
}
