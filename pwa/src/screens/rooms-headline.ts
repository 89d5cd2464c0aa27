// What is so in the rooms, in one line: a power cut first, then air that strayed, then how many eggs lie where. Pure.
import { power } from "../app/words/machine.ts";
import { rooms as words } from "../app/words/rooms.ts";
import type { Place } from "../book/bodies.generated.ts";
import type { Standing } from "../book/standing.ts";
import { judgement } from "./air-line.tsx";
import { airView } from "./air-view.ts";
import { cutAt, lengthText } from "./power-line.tsx";
import { type SettingView, whereIs } from "./setting-view.ts";

const FRESH_MS = 24 * 3_600_000;
const WORST_FIRST = ["red", "amber"] as const;

/** busy: the settings that are shown. machines: by id. */
export function roomsHeadline(
  totals: Standing,
  machines: readonly (readonly [string, Place])[],
  busy: readonly SettingView[],
  now_ms: number,
): string {
  if (machines.length === 0) return words.title.none;
  const running = busy.filter((view) => view.inShell > 0);
  if (running.length === 0) return words.title.empty;
  const at = (id: string) => running.filter((view) => whereIs(view.setting) === id);
  const atWork = machines.filter(([id, place]) => place.role !== "hen" && at(id).length > 0);
  const cut = atWork.map(([id]) => cutAt(totals, id, now_ms)).find((one) => one?.untilMs === null);
  if (cut) return power.title.off(lengthText(now_ms - cut.fromMs));
  const airs = atWork.map(([id, place]) => ({ place, view: airView(totals, id, at(id), now_ms) }));
  for (const tier of WORST_FIRST) {
    for (const { place, view } of airs) {
      const strayed = view.wanted.find((one) => one.tier === tier);
      const fresh = view.last !== null && now_ms - view.last.atMs < FRESH_MS;
      if (strayed && fresh) return words.title.strayed(place.name, judgement(strayed, false));
    }
  }
  const full = new Set(running.map((view) => whereIs(view.setting))).size;
  return words.title.running(
    full,
    running.reduce((sum, view) => sum + view.inShell, 0),
  );
}
