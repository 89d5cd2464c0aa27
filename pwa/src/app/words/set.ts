// Setting eggs: the form, the dates before saving, what clashes, and a setting that runs already.
import { eggs, plural } from "./everywhere.ts";

export const setEggs = {
  total: (n: number) => (n === 0 ? "Set eggs" : `Set ${eggs(n)}`),
  place: "In",
  newPlace: "A new machine",
  newHen: "A broody hen",
  newPlaceName: "Its name",
  newHenName: "Her name",
  species: "Species",
  batch: (n: number) => `Batch ${n}`,
  batches: "Batches",
  newFamily: (family: string) => `A new ${family}`,
  newFamilyName: "Name",
  breed: "Breed",
  count: "Eggs",
  countOf: (family: string) => `Eggs of ${family}`,
  sign: "Sign",
  signHint: "R",
  signNote: "Pencil the sign on each shell, large end up, before they go in.",
  sameSign: (one: string, other: string, sign: string) =>
    `${one} and ${other} both bear ${sign}. Another sign keeps the shells apart.`,
  addBatch: "Another batch",
  removeBatch: (name: string) => `Remove ${name}`,
  lockdown: "Lockdown on day",
  lockdownUsual: (day: number) => `Day ${day} is usual for this species.`,
  hatchOn: (text: string) => `Chicks due ${text}.`,
  start: (n: number) => `Start with ${eggs(n)}`,
  needFamily: (family: string) => `Choose or name a ${family} for each batch.`,
  needCount: "Each batch needs at least one egg.",
  needPlace: "Name the machine or the hen the eggs are in.",
  unknownSpecies: "This app has no days for this species. Set the lockdown day yourself.",
  again: "Set again, as last time",
  againNote: (when: string, families: string) => `${families}, set ${when}; with the eggs now in store.`,
  plan: "Plan from the day of hatching",
} as const;

export const batchMore = {
  title: (name: string) => `Laid when, from where: ${name}`,
  short: "Laid when, from where",
  laidFrom: "Oldest laid on",
  laidTo: "Youngest laid on",
  swapped: "The oldest is laid before the youngest.",
  ahead: "Laid before the day of setting.",
  where: "From where",
  wheres: { own: "Our own", bought: "Bought or given", post: "By post" },
  who: "From whom",
  whoNeeded: "Say from whom, so that they are told apart from your own.",
  arrived: "Arrived on",
  postNote: (low: number, high: number) =>
    `Posted eggs rest ${low} to ${high} h, large end up, before they are set.`,
  postApart: "They are reported apart from your own.",
  hens: "Laid by",
  henChoices: { several: "Several hens", one: "One hen" },
  hen: "Which hen",
  henUnknown: "Not known which",
  inStore: (n: number, from: string, to: string) =>
    from === to ? `${n} in store, laid ${from}` : `${n} in store, laid ${from} to ${to}`,
  more: (n: number, there: number) => `${n} are more than the ${there} in store; the rest count as well.`,
  useAll: (n: number) => `All ${n}`,
  useFresh: (n: number, days: number) => `${n} of up to ${plural(days, "day", "days")}`,
  age: (days: number) => `The oldest is ${plural(days, "day", "days")} old at setting`,
  cost: (points: string) => `commercial flocks lost ${points} points of hatch at that age, on average`,
  beyond: (days: number) => `no figure was read for more than ${days} days`,
  costWhy: {
    about: "the cost of keeping eggs",
    formula:
      "0.2 points of hatch a day in the first week, 0.5 a day in the second: an average of 24,234 commercial broiler batches, not of breeds like yours.",
    days: "Days kept",
    points: "Points of hatch",
  },
} as const;

export const setDates = {
  title: "What comes when",
  candle: (day: number) => `Candle, day ${day}`,
  candleHen: (day: number) => `Candle at dusk, day ${day}`,
  lockdown: (day: number) => `Lockdown, day ${day}`,
  hatch: "Chicks due",
  hatchHen: "Chicks due: leave her alone",
  to: (from: string, to: string) => (from === to ? from : `${from} to ${to}`),
  hen: "She turns, warms and airs them herself. Feed and water within her reach; she comes off once a day.",
  shells: {
    dark: (day: number) =>
      `Dark shells tell little before about day ${day}, so the first candling waits until then.`,
    mixed: (day: number) =>
      `Some shells are dark: those may show little before about day ${day}. Leave them in and look again then.`,
  },
  choose: "Which eggs to set",
} as const;

export const clash = {
  title: "Before you save",
  still: "You can save all the same.",
  full: (n: number, capacity: number) => `${eggs(n)} together; it holds ${capacity}.`,
  henFull: (n: number, most: number, better: number) =>
    n > most
      ? `${eggs(n)} under one hen; ${most} is the most, and the hatch falls above ${better}.`
      : `${eggs(n)} under one hen; the hatch falls above ${better}.`,
  noTurning: "A hatcher does not turn eggs. Turn them by hand, or start them in an incubator.",
  warmth: (ours: string, theirs: string, other: string) =>
    `These want ${ours}, ${other} want ${theirs}. One machine gives one temperature.`,
  moisture: (ours: string, theirs: string, other: string) =>
    `These want a wet bulb of ${ours}, ${other} want ${theirs}.`,
  theirLockdown: (other: string, when: string, day: number) =>
    `${other} go into lockdown on ${when}: turning stops and the air gets moist while these are on day ${day}.`,
  ownLockdown: (other: string, when: string, day: number) =>
    `These go into lockdown on ${when}; ${other} are then on day ${day} and still need turning.`,
  remedy: (hatcher: string | null) =>
    hatcher
      ? `Move whichever is first to ${hatcher} that day.`
      : "Turn the others by hand, or hatch elsewhere.",
  henLeaves: (other: string, days: number) =>
    `${other} under her hatch ${plural(days, "day", "days")} apart from these. She leaves with the first chicks.`,
  other: (n: number, species: string, when: string) =>
    `the ${plural(n, `${species} egg`, `${species} eggs`)} of ${when}`,
  henWhy: {
    about: "eggs under a hen",
    formula: "So many hen eggs a broody can cover; a bantam covers fewer (common practice, no source).",
  },
  warmthWhy: {
    about: "temperatures in one machine",
    formula: "Setter temperature by species. Differences of half a degree Fahrenheit are tolerated.",
  },
} as const;

export const runsAlready = {
  title: "It runs already",
  day: (day: number) => `That was ${plural(day, "day", "days")} ago. What was seen so far?`,
  candled: "Held to the light?",
  notYet: "Not yet",
  candledDay: "On day",
  rest: (n: number) => `The other ${n} were live.`,
  tooMany: "More were found than were set.",
  locked: "Lockdown done?",
  yes: "Yes",
  no: "No",
  lockedNote: (day: number) => `Day ${day} is written as the day of lockdown.`,
} as const;
