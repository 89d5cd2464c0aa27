/** Whether a setting's eggs let light through: dark shells are first candled later. Mirrors reports/shells.py. */
import { type Calendar, incubationCalendar } from "../trade/calendar.ts";
import type { Species } from "../trade/species.ts";
import { heldMs } from "./moments.ts";
import type { Setting, Standing } from "./standing.ts";

export type Shells = "dark" | "mixed" | "plain";

/** What the shells of all these families together are. An unknown family or shell counts as plain. */
export function shellsTogether(
  families: Standing["families"],
  ids: readonly (string | null | undefined)[],
): Shells {
  const dark = ids.map((id) => families.get(id ?? "")?.shell === "dark");
  if (!dark.includes(true)) return "plain";
  return dark.includes(false) ? "mixed" : "dark";
}

export function shellsOf(standing: Standing, setting: Setting): Shells {
  return shellsTogether(
    standing.families,
    setting.lots.map((lot) => standing.lots.get(lot)?.family),
  );
}

/** The milestones of one setting: its own lockdown day, and its first candling by its shells. */
export function settingCalendar(standing: Standing, setting: Setting, species: Species): Calendar {
  const dark = shellsOf(standing, setting) === "dark";
  return incubationCalendar(species, heldMs(setting.setAtMs), setting.lockdownDay, dark);
}
