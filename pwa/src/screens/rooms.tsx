// The machines: what is in each, how far it is, and the acts that belong to today.
import { useState } from "preact/hooks";
import { rooms as words } from "../app/words/rooms.ts";
import { young } from "../app/words/species.ts";
import { due } from "../book/agenda.ts";
import type { Place } from "../book/bodies.generated.ts";
import { addPlace } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { PlaceForm } from "./place-form.tsx";
import { SettingStrip } from "./setting-strip.tsx";
import { type SettingView, settingView } from "./setting-view.ts";
import { speciesName } from "./species-name.ts";
import { dateWords } from "./told-time.ts";

const MACHINES = ["incubator", "hatcher", "hen"];

/** How long after the hatch the eggs that wait to be opened stay in sight. */
const OPENED_WITHIN_DAYS = 14;

function isFresh({ toOpen, calendar, day }: SettingView): boolean {
  return toOpen > 0 && day <= (calendar?.hatchTo.day ?? day) + OPENED_WITHIN_DAYS;
}

/** Running settings first, each kind in the order they were set. */
function byShell(a: SettingView, b: SettingView): number {
  return Number(b.inShell > 0) - Number(a.inShell > 0) || a.setting.setAtMs - b.setting.setAtMs;
}

export function RoomsScreen() {
  const now_ms = useNow();
  const [adding, setAdding] = useState(false);
  const { places, settings } = standing.value;
  const views = [...settings.values()].map((one) => settingView(standing.value, one, now_ms));
  const busy = views.filter((view) => view.inShell > 0 || isFresh(view)).sort(byShell);
  const today = due(standing.value, new Date(now_ms));
  const asked = new Set(today.tasks.filter((task) => task.due <= today.on).map((task) => task.setting));
  const inShell = busy.reduce((sum, view) => sum + view.inShell, 0);
  const machines = [...places].filter(([, place]) => MACHINES.includes(place.role));
  const strangers = busy.filter((view) => !places.has(view.setting.place));
  const full = new Set(busy.filter((view) => view.inShell > 0).map((view) => view.setting.place)).size;
  const headline =
    machines.length === 0
      ? words.title.none
      : inShell === 0
        ? words.title.empty
        : words.title.running(full, inShell);
  return (
    <Page headline={headline} under={machines.length === 0 ? words.emptyRemedy : null}>
      {machines.map(([id, place]) => (
        <Machine
          key={id}
          id={id}
          place={place}
          asked={asked}
          views={busy.filter((view) => view.setting.place === id)}
        />
      ))}
      {strangers.length > 0 && (
        <Machine id="" place={{ name: words.noPlace, role: "apart" }} asked={asked} views={strangers} />
      )}
      {adding || machines.length === 0 ? (
        <section class="section">
          <h2>{words.addTitle}</h2>
          <PlaceForm
            onSave={(place) => {
              void addPlace(place);
              setAdding(false);
            }}
            {...(machines.length > 0 ? { onCancel: () => setAdding(false) } : {})}
          />
        </section>
      ) : (
        <div class="acts section">
          <Press kind="plain" onPress={() => setAdding(true)}>
            {words.add}
          </Press>
        </div>
      )}
    </Page>
  );
}

interface MachineProps {
  readonly id: string;
  readonly place: Place;
  readonly views: readonly SettingView[];
  /** Settings that ask for something today. */
  readonly asked: ReadonlySet<string>;
}

function Machine({ id, place, views, asked }: MachineProps) {
  const inShell = views.reduce((sum, view) => sum + view.inShell, 0);
  return (
    <section class="room" aria-label={place.name}>
      <div class="head">
        <h2>{place.name}</h2>
        <span class="quiet">{inShell > 0 ? words.eggsIn(inShell) : words.emptyMachine}</span>
      </div>
      {views.map((view) => (
        <Running key={view.setting.id} view={view} asked={asked.has(view.setting.id)} />
      ))}
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

function Running({ view, asked }: { view: SettingView; asked: boolean }) {
  const { setting, inShell, hatched, toOpen, next } = view;
  const page = `/setting/${setting.id}`;
  const set = dateWords(setting.setAtMs, standing.value.keeper.zone);
  const told = [
    words.since(set),
    inShell > 0 ? words.speciesEggs(inShell, speciesName(setting.species).toLowerCase()) : null,
    hatched > 0 ? `${young(hatched, setting.species)} hatched` : null,
    inShell === 0 && toOpen > 0 ? words.waiting(toOpen) : null,
  ].filter(Boolean);
  return (
    <div class="running">
      {inShell > 0 && <SettingStrip view={view} />}
      <p>{told.join(", ")}</p>
      <div class="acts">
        <a class="press plain" href={page} aria-label={words.pageOf(set)}>
          {words.page}
        </a>
        {next && (
          <a class={asked ? "press main" : "press firm"} href={`${page}/tally/${next}`}>
            {words.act[next]}
          </a>
        )}
      </div>
    </div>
  );
}
