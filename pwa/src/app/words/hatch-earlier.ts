// The first pip and the first chick beside other hatches and what is usual.
import { listed } from "./everywhere.ts";

export const hatchEarlier = {
  title: "Beside other hatches",
  pip: "First pip",
  out: "First chick",
  own: (what: string, day: string) => `${what}: day ${day}.`,
  notYet: (what: string) => `${what}: not seen yet.`,
  otherOne: (day: string) => `In one other hatch here: day ${day}.`,
  others: (n: number, low: string, high: string, middle: string) =>
    `In ${n} other hatches here: day ${low} to ${high}, in the middle ${middle}.`,
  none: "No other hatch of this species is in the book yet.",
  usual: (day: number, pip: string, low: string, high: string) =>
    `Usual: first chicks on day ${day}, each ${low} to ${high} hours after its pip, so first pips from about day ${pip}.`,
  formula: (waterfowl: number) =>
    `Days since setting, at the look that first saw it. Eggs kept long, small eggs and a cool or warm machine move it by half a day and more. Waterfowl may take up to ${waterfowl} hours from pip to chick.`,
  period: "Days of incubation: the table of the species",
  table: "Each hatch",
  columns: { hatch: "Set", pip: "First pip, day", out: "First chick, day" },
  row: (place: string, month: string) => `${place}, ${month}`,
  also: (names: readonly string[]) => `${listed(names)} too`,
  notSeen: "–",
} as const;
