// Chicks from the hatcher to the day they are grown: where they are, what they need, moving house.
import { plural } from "./everywhere.ts";

export const brood = {
  title: {
    none: "No chicks yet",
    some: (who: string, places: number) => `${who} in ${plural(places, "place", "places")}`,
    empty: (name: string) => `${name} is empty`,
    nest: (who: string, age: string) => (age ? `${who}, ${age}` : who),
    warm: (told: string, heat: string) => `${told}: ${heat}`,
    byChicks: "heat on, as the chicks lie",
    batch: (name: string, alive: string, of: number, age: string) =>
      `${name}: ${alive} of ${of} alive${age ? `, ${age}` : ""}`,
    upTo: (least: number, most: number) => `${least} to ${most}`,
    cannotBe: (name: string, age: string) => `${name}: counts that cannot be${age ? `, ${age}` : ""}`,
    unknown: (name: string, young: string) => `${name}: none is known to be of it, ${young} may be`,
    gone: "These chicks are not in the book of this phone",
    placeGone: "This place is not in the book of this phone",
  },
  noneRemedy:
    "Chicks come here from the page of their hatch: count them out, then move them to feed and water.",
  unknownUnder: (families: string) =>
    `Nobody wrote of which of ${families} they hatched. Losses and care are written where they are.`,
  noneLeft: "None is left.",
  over: "Chicks",
  cannotBe: "counts that cannot be",
  growing: (n: number) => plural(n, "growing bird", "growing birds"),
  age: (days: number) => (days === 0 ? "hatched today" : `${plural(days, "day", "days")} old`),
  ages: (days: string) => `${days} ${days === "1" ? "day" : "days"} old`,
  ageUnknown: "nobody wrote when they hatched",
  inNoPlace: "In no named place",
  inNoPlaceRemedy: "Say where they are: what they need and what is due goes by place.",
  inMachine: "Still where they hatched.",
  empty: "Nothing in it.",
  see: "Heat, care, feed",
  seeOf: (name: string) => `Heat, care, feed, ${name}`,
  all: "All broods",
  who: "Who is in it",
  batchOf: (name: string) => `${name}: losses and more`,
  batch: "Losses and more",
  mark: (name: string) => `Mark, ${name}`,
  where: "Where they are",
  inPlace: (n: number, place: string) => `${n} in ${place}`,
  links: "What to write down",
  minding: {
    alike: (one: string, other: string, place: string) =>
      `${one} and ${other} share ${place}, and their marks do not tell them apart.`,
    willAlike: (one: string, other: string) =>
      `${one} and ${other} will be together, and their marks do not tell them apart.`,
    alikeRemedy: "Mark them first, or keep them in places of their own until they are marked.",
    ages: "Chicks a week or more apart in age are together.",
    willAges: "Chicks a week or more apart in age will be together.",
    agesRemedy:
      "Watch the small ones: they need more heat and are pushed from the feed. Part them where you can.",
    mark: (name: string) => `Mark ${name}`,
  },
} as const;

export const broodMove = {
  link: "Move them",
  some: "Move some, or elsewhere",
  title: (who: string) => `Move ${who}`,
  which: "How many of each",
  to: "Into",
  stage: "They are",
  stages: { brooding: "Under heat or a hen", growing: "Off heat, growing" },
  go: (n: number, place: string) => `Move ${n} to ${place}`,
  nobody: "Nobody is left to move here.",
  noPlace: "Name the brooder, the hen or the pen first.",
  addPlace: "A new place",
  adopt:
    "A hen takes chicks best after dark, and in their first days only (common practice, no source). Look at them at first light.",
  heatFirst: "Run the heat a day before chicks move in (Penn State Extension: two to four days).",
  warned: "You can move them all the same.",
  moved: (n: number, place: string) => `${n} now in ${place}.`,
  seeThere: "Go there",
} as const;
