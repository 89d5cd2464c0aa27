// How many eggs to set for the birds wished for, when and where.
import { chanceTold } from "./answers.ts";
import { eggs, plural } from "./everywhere.ts";

const wish = (pullets: number, cockerels: number) =>
  `${plural(pullets, "pullet", "pullets")} and ${plural(cockerels, "cockerel", "cockerels")}`;

export const wished = {
  waiting: "How many eggs to set",
  headline: (n: number, pullets: number, cockerels: number, chance: number, family: string) =>
    `Set ${eggs(n)} for ${wish(pullets, cockerels)} of each ${family}: ${chanceTold(chance)}`,
  none: "There is no family to plan for yet",
  noneRemedy: "Name a family first; then this page says how many of its eggs to set.",
  odd: "This plan could not be asked for",
  wishes: "What is wished for",
  pullets: "Pullets of each",
  cockerels: "Cockerels of each",
  chance: "Chance that all of it comes true",
  hatchOn: "Chicks on",
  soon: "As soon as can be",
  family: (family: string) => `Which ${family}`,
  all: "All",
  eggs: "Eggs to set",
  eggsOf: (name: string, n: number, chance: number) => `${name}: ${eggs(n)}, ${chanceTold(chance)}`,
  option: (n: number, chance: number) => `with ${eggs(n)} ${chanceTold(chance)}`,
  notEnough: "Even so many do not give the chance wished for.",
  store: (n: number) => `${eggs(n)} in store now`,
  pace: (n: number, week: number) => `${eggs(n)} in store now, about ${Math.round(week)} a week`,
  enoughOn: (day: string) => `all there by ${day}`,
  stopped: "none kept in the last week",
  settings: "When and where to set them",
  setting: (n: number, place: string) => `${eggs(n)} in ${place}`,
  anyPlace: "an incubator",
  lots: (name: string, n: number) => `${n} ${name}`,
  days: (lockdown: string, hatch: string) => `lock down ${lockdown}, hatch ${hatch}`,
  calendar: (settings: number, from: string, to: string) =>
    `${plural(settings, "setting", "settings")} from ${from} to ${to}`,
  running: (n: number, place: string) => `${n} running, ${place}`,
  calendarNote:
    "Each bar is a setting, running ones first: open while eggs are turned, filled from lockdown to hatch.",
  granted: "What this rests on",
} as const;
