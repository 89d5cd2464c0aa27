// The hatch of one setting as it goes on.
import { plural } from "./everywhere.ts";

export const hatching = {
  link: "How the hatch goes",
  title: {
    lockdown: (when: string) => `Lockdown ${when}`,
    wait: (when: string) => `Chicks due ${when}`,
    due: "Chicks are due",
    pipped: (n: number) => `${plural(n, "egg has", "eggs have")} pipped; none is out yet`,
    running: (out: number, left: number) => `${out} out, ${left} still in the shell`,
    over: (out: number, set: number) => `${out} of ${set} hatched`,
  },
  countdown: "What comes",
  toLockdown: "Lockdown",
  toHatch: "Chicks due",
  lockedDown: (when: string) => `done ${when}`,
  left: (days: number, hours: number) =>
    days > 0 ? `in ${plural(days, "day", "days")}${hours > 0 ? ` ${hours} h` : ""}` : `in ${hours} h`,
  passed: "now",
  late: (days: number) => `${plural(days, "day", "days")} late`,
  firstPip: "First pip seen",
  firstOut: "First chick out",
  lastOut: "Last chick out",
  notSeen: "not seen yet",
  looks: "At each look",
  lookTotal: (n: number) => `${n} out`,
  noneNew: "nothing new",
  weak: (n: number) => `${n} of them weak`,
  helped: (n: number) => `${n} helped out`,
  pippedNow: (n: number) => `${n} pipped`,
  look: "Look at the hatch",
  curve: {
    title: (out: number, of: number, hours: number) => `${out} of ${of} out within ${hours} h`,
    one: (out: number, of: number) => `${out} of ${of} out at one look`,
    name: (points: string) => `Chicks out so far: ${points}.`,
    axis: "hours since the first chick; chicks out",
    table: "As a table",
    columns: { when: "Look", out: "Out", of: "All so far" },
    note: "Each step is a look: the chick came out at some time since the look before.",
  },
  forecast: {
    title: "When they are likely",
    between: (from: string, to: string) => `Nine of ten between ${from} and ${to}.`,
    rests: (n: number) =>
      n === 0
        ? "By the species: no earlier hatch of this machine is known."
        : `From ${plural(n, "earlier hatch", "earlier hatches")} of this machine.`,
    server: (when: string) => `The server's answer of ${when}.`,
    species: (from: string, to: string) =>
      `By the species alone: ${from === to ? from : `${from} to ${to}`}. Once the server was asked, its forecast from this machine's own hatches stands here.`,
    unknown: "No table tells how long this species takes.",
    about: "when the chicks are likely",
    bySpecies:
      "The days on which chicks of this species usually come, counted from the day the eggs were set.",
    byServer: (weight: number, most: number) =>
      `The middle of the species' usual time, earlier or later by what this machine's own hatches showed: the species counts as ${plural(weight, "hatch", "hatches")}, each of its last ${most} as one. How long those took and how far apart they lay sets the width.`,
    inputs: {
      period: "Usual for the species",
      spread: "First chick to last, allowed for by the species",
      hatches: "Earlier hatches of this machine",
      moved: "Earlier or later by",
    },
    days: (low: number, high: number) => (low === high ? `day ${low}` : `day ${low} to ${high}`),
    hours: (hours: number) => `${hours} h`,
    moved: (hours: number) => (hours === 0 ? "0 h" : hours > 0 ? `${hours} h later` : `${-hours} h earlier`),
  },
  pull: {
    title: "When to take them out",
    by: (first: string, late: string) => `Feed and water by ${first}, by ${late} at the latest.`,
    late: (hours: number) =>
      `The first chick still inside has been out ${hours} h: bring those that are dry to feed and water now.`,
    lid: (n: number, latest: number) =>
      `${plural(n, "egg is", "eggs are")} pipped: the lid stays shut until they are out, as long as no chick is out ${latest} h.`,
    lidOpen:
      "No egg that was seen pipped is still in its shell: the lid may be opened quickly to take out dry chicks.",
    lidUnseen:
      "No pip is written down. Look in before you open: if no egg is pipped, the lid may be opened quickly to take out dry chicks.",
    about: "when to take chicks out",
    why: "It runs from the look at which the first chick still inside was seen out. That the lid stays shut while an egg is pipped is common practice, no source.",
    inputs: {
      firstOut: "First chick still inside, seen out",
      feedBy: "Feed and water within",
      atLatest: "At the latest within",
      pipToOut: "From pip to out, usually",
      waterfowl: "Ducks and geese, at most",
    },
    hours: (hours: number | string) => `${hours} h`,
    span: (low: number, high: number) => `${low} to ${high}`,
    move: (text: string, place: string) => `Move ${text} to ${place}`,
    moveAny: (text: string) => `Move ${text} to the brooder`,
    where: "Into",
    moved: "Brought over.",
  },
  next: {
    title: "What to do next",
    lockdown: "Lock the machine down: turning stops, humidity goes up, baskets apart.",
    wait: "Leave the lid shut and fill water from outside.",
    look: "Look once, write it down, shut the lid.",
    open: "Open what did not hatch, not before a day after the last chick: candle and listen first.",
    done: "Nothing is left in the shell.",
  },
} as const;
