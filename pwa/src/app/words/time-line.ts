// One hatch from set to opened on one line of days.
import { eggs, plural } from "./everywhere.ts";

export const timeLine = {
  open: "The whole of it on one line of days",
  name: (days: number) => `${days} days from the eggs set on, on one line`,
  running: (day: number, left: number) => `Day ${day}: ${eggs(left)} in the shell`,
  hatched: (out: number, set: number, hours: number) =>
    `${out} of ${eggs(set)} hatched${hours > 0 ? ` within ${hours} h` : ""}`,
  seenHere: "By this phone's book. What stands out comes with the server's answer.",
  of: (when: string) => `What stands out: the server's answer of ${when}.`,
  findings: "What stands out, where on the line it belongs",
  finding: (at: number, words: string) => `${at}: ${words}`,
  often: (causes: string) => `Often seen with: ${causes}.`,
  never: "What is often seen with it is no diagnosis. “What it may mean” names who says so.",
  lanes: {
    eggs: (set: number, out: number, hatched: number) =>
      `${eggs(set)}: ${out} out before the hatch, ${hatched} hatched`,
    eggsSoFar: (set: number, out: number) => `${eggs(set)}, ${out} of them out so far`,
    air: (low: string, high: string, n: number, out: number | null) =>
      `Air ${low} to ${high}, ${plural(n, "reading", "readings")}${out === null ? "" : out === 0 ? ", all within the band" : `, ${out} outside the band`}`,
    humidity: (low: number, high: number) => `Humidity ${low} to ${high} %`,
    weight: (lost: string, day: number) => `Weight lost: ${lost} % by day ${day}`,
    wanted: (low: number, high: number, day: number) => `; ${low} to ${high} wanted by day ${day}`,
  },
  key: "Days since the eggs were set. Upright dashes: candling, lockdown, first and last day of hatching. Shaded: the band wished for. Falling line: eggs in the shell; rising dashes: chicks out. Rings: candled; squares: opened, as high as they were many; dotted: no power.",
  milestone: {
    candle: (day: number) => `candle ${day}`,
    lockdown: () => "lockdown",
    hatch: () => "hatch",
    last: () => "",
  },
  table: "The line as a table",
  columns: { day: "Day", when: "When", what: "What" },
  rows: {
    set: (n: number) => `${eggs(n)} set`,
    air: (degrees: string, humidity: string, n: number) =>
      [degrees, humidity, plural(n, "reading", "readings")].filter(Boolean).join(", "),
    weighed: (pct: string, tray: string) => `${tray}: ${pct} % lost`,
    candled: "Candled",
    out: "Out",
    opened: "Opened",
    live: (n: number) => `${n} live`,
    unsure: (n: number) => `${n} not sure`,
    locked: "Lockdown done",
    cut: (hours: string) => `No power for ${hours} h`,
    cutOpen: "No power, not yet back",
    look: (out: number, all: number, pipped: number) =>
      `Look at the hatch: ${out} out, ${all} in all${pipped > 0 ? `, ${pipped} pipped` : ""}`,
  },
  print: "Print",
} as const;
