// The machines: what is in each, how far it is, and the acts that belong to today.
import { useState } from "preact/hooks";
import { rooms as words } from "../app/words/rooms.ts";
import { due } from "../book/agenda.ts";
import { inStage } from "../book/standing.ts";
import { addPlace } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { Machine } from "./machine-card.tsx";
import { useNow } from "./now.ts";
import { OtherRooms } from "./other-rooms.tsx";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { PlaceForm } from "./place-form.tsx";
import { roomsHeadline } from "./rooms-headline.ts";
import { type SettingView, settingView, whereIs } from "./setting-view.ts";

const MACHINES = ["incubator", "hatcher", "hen"];

/** How long after the hatch the eggs that wait to be opened stay in sight. */
const OPENED_WITHIN_DAYS = 14;

function isFresh({ setting, toOpen, calendar, day }: SettingView): boolean {
  if (inStage(setting, "hatched") > 0) return true;
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
  const asked = new Set(
    today.tasks.flatMap((task) => (task.due <= today.on && task.setting ? [task.setting] : [])),
  );
  const machines = [...places].filter(([, place]) => MACHINES.includes(place.role));
  const known = new Set(machines.map(([id]) => id));
  const strangers = busy.filter((view) => !known.has(whereIs(view.setting)));
  const headline = roomsHeadline(standing.value, machines, busy, now_ms);
  return (
    <Page headline={headline} under={machines.length === 0 ? words.emptyRemedy : null}>
      {machines.map(([id, place]) => (
        <Machine
          key={id}
          id={id}
          place={place}
          asked={asked}
          views={busy.filter((view) => whereIs(view.setting) === id)}
          now_ms={now_ms}
        />
      ))}
      {strangers.length > 0 && (
        <Machine
          id=""
          place={{ name: words.noPlace, role: "apart" }}
          asked={asked}
          views={strangers}
          now_ms={now_ms}
        />
      )}
      <OtherRooms now_ms={now_ms} />
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
          <a class="press plain" href="/rooms/places">
            {words.places}
          </a>
          <a class="press plain" href="/rooms/plan">
            {words.plan}
          </a>
          <a class="press plain" href="/eggs">
            {words.eggs}
          </a>
        </div>
      )}
    </Page>
  );
}
