// What a brood asks for: done with one tap, put off, or not asked any more.

type Chore =
  | "water"
  | "drinkers"
  | "litter"
  | "heat"
  | "eat"
  | "vitamins"
  | "pan"
  | "raise"
  | "feed"
  | "grit"
  | "ring_size"
  | "dust_bath"
  | "apart"
  | "weigh";

/** what: what there is to do. done: after it was. short: for a headline. */
interface ChoreWords {
  readonly what: string;
  readonly done: string;
  readonly short: string;
}

const CHORES: Readonly<Record<Chore, ChoreWords>> = {
  water: { what: "Fresh water", done: "Fresh water given", short: "Fresh water" },
  drinkers: { what: "Clean the drinkers", done: "Drinkers cleaned", short: "Cleaning drinkers" },
  litter: { what: "Wet litter out", done: "Wet litter out", short: "Wet litter" },
  heat: { what: "Lower the heat", done: "Heat lowered", short: "Lowering the heat" },
  eat: { what: "Look for chicks that do not eat", done: "Looked who eats", short: "A look who eats" },
  vitamins: {
    what: "Vitamins for weak chicks",
    done: "Vitamins given",
    short: "Giving weak chicks vitamins",
  },
  pan: { what: "Feed in a pan, paper up", done: "Feed in a pan", short: "Feed in a pan" },
  raise: {
    what: "Raise feeders and drinkers",
    done: "Feeders and drinkers raised",
    short: "Raising feeders and drinkers",
  },
  feed: { what: "Change the feed", done: "Feed changed", short: "A change of feed" },
  grit: {
    what: "Grit of the next size",
    done: "Grit of the next size given",
    short: "Grit of the next size",
  },
  ring_size: { what: "Rings of the next size", done: "Rings changed", short: "Fitting larger rings" },
  dust_bath: { what: "Fill the dust bath", done: "Dust bath filled", short: "Filling the dust bath" },
  apart: { what: "End of time apart", done: "Time apart ended", short: "An end of time apart" },
  weigh: { what: "Weigh", done: "Weighed", short: "Weighing" },
};

/** The words of a task of a brood; undefined for any other. */
export function choreWords(task: string): ChoreWords | undefined {
  return Object.hasOwn(CHORES, task) ? CHORES[task as Chore] : undefined;
}

/** Tasks the words know, for the test that none is left out. */
export const WORDED_CHORES: readonly string[] = Object.keys(CHORES);

export const chores = {
  title: "Care",
  done: "Done",
  doneAt: (what: string, place: string, when: string) => `${what}, ${place}, ${when}.`,
  at: (what: string, place: string) => (place ? `${what}, ${place}` : what),
  weigh: "Weigh",
  heat: "Heat",
  nothing: "Nothing more to do here today.",
  later: "Put it off, or not at all",
  week: "Not for a week",
  never: "Not for these birds",
  until: "Ask again on",
  untilSave: "Ask then",
  untilFault: "Choose a day that is still to come.",
  silent: "Not asked for now",
  silentLine: (what: string, until: string) => `${what}: until ${until}`,
  silencedUntil: (what: string, until: string) => `${what}: not asked until ${until}`,
  ask: "Ask again",
  round: "Round done: water, feed, litter",
  roundDone: "Round done",
  roundWas: (parts: string) => `Round: ${parts}`,
  parts: { water: "water", feed: "feed", litter: "litter" },
  looked: "Looked at",
  bath: {
    ask: "They have a dust bath",
    title: "A dust bath",
    why: "Off until you choose it, and never where there is heat. Common practice: equal parts of sand, hardwood ash and food-grade diatomaceous earth. Mix it outdoors with a mask on: the dust harms lungs.",
  },
} as const;
