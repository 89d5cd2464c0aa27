// A machine's card: what is done at it with one tap, the air in it, and the power.
import { listed, plural } from "./everywhere.ts";

export const machine = {
  acts: (name: string) => `Done at ${name}`,
  act: { turned: "Turned", watered: "Water filled", vented: "Vents changed" },
  turnTo: { x: "Turned, X up", o: "Turned, O up" },
  sideUp: { x: "X up", o: "O up" },
  air: "Read the air",
  gauge: "Check a gauge",
  powerOff: "Power is off",
  undo: "Undo",
  when: "Not now",
  another: "Another time",
  whenSave: "That was when",
  other: { x: "No, X is up", o: "No, O is up" },
  doneAt: (what: string, when: string) => `${what}, ${when}.`,
  turns: {
    never: "Not turned yet.",
    none: (last: string) => `Not turned today; last ${last}.`,
    odd: (n: number) => `Turned ${plural(n, "time", "times")} today, an odd number.`,
    even: (n: number) => `Turned ${n} times today: once more makes it odd.`,
    why: "Three to five turns a day by hand, none in the last three days. An odd number lays the eggs on the other side each night (common practice, no source). Pencil X on one side and O on the other.",
    source:
      "Turns: Science of incubation, Virginia Tech. Marks: Avian Embryo, Publication P1150, read on a copy.",
  },
  before: "Before eggs go in, run it a day or two and check its gauges (common practice, no source).",
  hen: "She turns, warms and airs the eggs herself.",
  resting: (date: string) => `The eggs of ${date} are locked down: they are not turned any more.`,
  clash: (locked: string, turned: string) =>
    `The eggs of ${locked} rest for the hatch and those of ${turned} are still turned: best in two machines.`,
  eggsOf: (species: string) => `${species} eggs`,
  warmths: (one: string, oneC: string, other: string, otherC: string) =>
    `${one} want ${oneC}, ${other.toLowerCase()} ${otherC}. One machine gives one temperature: best in two machines.`,
} as const;

export const airLine = {
  none: "No air reading yet.",
  at: (ago: string) => (ago === "just now" ? ago : `${ago} ago`),
  both: "both in the band",
  temperature: {
    fine: "temperature in the band",
    hot: (off: string) => `${off} above the target`,
    cold: (off: string) => `${off} below the target`,
  },
  humidity: {
    fine: "humidity in the band",
    dry: (low: string) => `drier than ${low}`,
    moist: (high: string) => `moister than ${high}`,
  },
  grave: (what: string) => `${what}: act now`,
  forWhom: (who: string, what: string) => `${who}: ${what}`,
  unread: { setter: "not read since these eggs were set", hatcher: "not read since lockdown" },
  noTarget: "no target is known for this species",
  unchecked: (gauges: readonly string[]) => `Nobody has checked the ${listed(gauges)} this season.`,
  gauges: { dry: "thermometer", wet: "wet bulb", humidity: "hygrometer" },
  age: {
    moment: "just now",
    minutes: (n: number) => `${n} min`,
    hours: (n: number) => `${n} h`,
    days: (n: number) => plural(n, "day", "days"),
  },
} as const;

export const power = {
  since: (clock: string, length: string) => `Power off since ${clock}: ${length}.`,
  back: "Power is back",
  what: "What to do",
  was: (length: string, when: string) => `The power was away ${length}, ${when}.`,
  candle: (from: string, to: string) => `Candle again between ${from} and ${to}.`,
  title: {
    off: (length: string) => `Power off for ${length}`,
    was: (length: string) => `The power was away ${length}`,
    none: "The power is on",
  },
  noneRemedy: "When it fails, tap “Power is off” on the card of a machine: a clock begins to run.",
  where: "Where",
  everywhere: "Everywhere",
  onlyHere: (name: string) => `Only ${name}`,
  from: "Since when",
  until: "When it came back",
  change: "Another time",
  save: "That is right",
  hours: (h: number, min: number) => (h === 0 ? `${min} min` : `${h} h ${min} min`),
  says: {
    power_cut: "Small machines that fit under a box",
    power_cut_forced: "Machines with a fan",
    power_cut_still: "Machines without a fan",
  },
  differ:
    "The two sources differ: the first keeps the warmth in, the second lets air into a machine whose fan has stopped.",
  own: { forced: "This machine has a fan.", still: "This machine has no fan." },
  source: (title: string, status: string) => `${title}; ${status}.`,
  noFlame: "No flame, no fuel heater and no generator indoors: fire, and a gas you cannot smell.",
  undo: "It was no power cut",
  notBack: "It is not back yet",
  ended: "That is before it began. Choose a later time.",
} as const;

/** How far a figure can be trusted. */
export const status = {
  seen: "read in the source itself",
  mirror: "read on a copy",
  memory: "commonly used, not yet checked against its source",
  derived: "worked out from published figures",
  practice: "common practice",
} as Readonly<Record<string, string>>;

export const elsewhere = {
  pen: {
    empty: "Nobody penned here.",
    birds: (family: string, sires: number, dams: number) =>
      `${family}: ${plural(sires, "male", "males")}, ${plural(dams, "female", "females")}`,
  },
} as const;

/** Lines of the book about a machine. */
export const toldMachine = {
  air: (place: string, what: string) => `Air in ${place}: ${what}`,
  wet: (text: string) => `wet bulb ${text}`,
  gauge: (name: string, place: string, found: string) => `${name} of ${place} checked: ${found}`,
  high: (by: string) => `it reads ${by} too high`,
  low: (by: string) => `it reads ${by} too low`,
  at: (what: string, place: string) => `${what}, ${place}`,
  weighed: (n: number, each: string, place: string) =>
    `${plural(n, "egg", "eggs")} weighed, ${each} each, ${place}`,
} as const;
