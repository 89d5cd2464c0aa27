// Weighing a tray: the water the eggs lose, and what to change.
import { eggs } from "./everywhere.ts";

export const weigh = {
  link: "Weigh a tray",
  title: {
    none: "Weigh a tray of eggs",
    once: "Weighed once: the line begins here",
    fine: "Losing water as it should",
    fast: "Losing water too fast",
    slow: "Losing too little water",
    wide: "Too small a weighing to tell",
    perhapsFast: "Perhaps losing water a little fast",
    perhapsSlow: "Perhaps losing a little too little water",
    noTarget: (pct: string) => `${pct} lost so far`,
  },
  noneRemedy: "Weigh it empty once and full every few days. Take the same tray and the same eggs.",
  onceRemedy: "Weigh the same eggs again in three days or more.",
  over: "So near lockdown and after it eggs are not weighed.",
  under: (lost: string, day: string, projected: string, low: string, high: string) =>
    `Lost ${lost} by day ${day}; at this pace ${projected} by lockdown. ${low} to ${high} is wanted.`,
  tray: "Tray",
  all: "All eggs together",
  n: "Eggs on the tray",
  gross: (unit: string) => `Tray with eggs, ${unit}`,
  tare: (unit: string) => `Tray empty, ${unit}`,
  each: (text: string) => `${text} an egg.`,
  save: "Write it down",
  saved: (when: string, n: number, each: string) => `Written down, ${when}: ${eggs(n)}, ${each} each.`,
  fault: {
    empty: "Type what the scale reads.",
    number: "That is no number. A comma or a dot, then tenths.",
    tare_over_gross: "The empty tray weighs as much as the full one, or more: are the two mixed up?",
    weighed_before_setting: "These eggs were not set yet at that time. Choose a later one.",
    weight_gained: (before: string, now: string) =>
      `Eggs do not gain weight, yet these weigh ${now} each and weighed ${before} before. Weigh again, and look at the tray and the number of eggs.`,
    odd_egg: (each: string) =>
      `That makes ${each} an egg, and no egg weighs that. Look at the unit, the tray and the number of eggs.`,
    lost_much: (pct: string) =>
      `That would be ${pct} lost, more than any egg survives. Look at the tray and the number of eggs.`,
    moreThanSet: (n: number) => `Only ${eggs(n)} were set.`,
  },
  chart: {
    day: "day of incubation; loss in % of the first weight",
    sinceDay: "days since the first weighing; loss in % of the first weight",
    name: (points: string, projected: string) => `Loss by day: ${points}. ${projected}`,
    ahead: (day: number, middle: string, low: string, high: string) =>
      `At this pace ${middle} % by day ${day}, between ${low} and ${high} %.`,
    table: "As a table",
    columns: { day: "Day", tray: "Tray", loss: "Lost" },
    wanted: "wanted",
    takeBack: "Take back",
    takeBackOf: (day: string) => `Take back the weighing of day ${day}`,
  },
  todo: "What to change",
  wetBulb: (dry: string, wet: string) => `At ${dry} that is a wet bulb of ${wet}.`,
  unchecked: "Nobody has checked the hygrometer this season: check it before you trust the figure.",
  nothing: "Nothing to change.",
  late: "Less than three days are left until lockdown: a change would hardly show any more.",
  rests:
    "The eggs rest for the hatch: what they lost is lost. Set the humidity of the hatcher by its own band.",
  altitude: {
    title: "Eggs brought up to you",
    pressure: "Air pressure here, by the standard atmosphere (101.3 kPa at the sea)",
    kpa: (kpa: string) => `${kpa} kPa`,
  },
  why: {
    loss: "Loss = (first weight − weight now) / first weight, for each egg and net of the tray.",
    inputs: (first: string, now: string, day: string, lost: string) =>
      `First ${first} an egg, ${now} on day ${day}: ${lost} lost.`,
    line: "The line is the best straight one through nothing at day 0 (least squares).",
    band: (step: string, error: string) =>
      `The bar at its end is where it leads 95 times in 100. The scale's step of ${step} alone makes ${error} points of one loss.`,
    corridor: (target: string, source: string, status: string) =>
      `Wanted ${target} by lockdown: ${source}; ${status}.`,
    humidity:
      "New humidity = 100 − (100 − old) × needed loss a day / seen loss a day, at most 5 points at once (our judgement).",
    recounted: (day: string, n: number, before: number) =>
      `On day ${day} ${eggs(n)} lay on the tray, ${before} before: reckoned for each egg.`,
  },
} as const;
