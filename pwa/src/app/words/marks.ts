// Marking chicks: webs, rings, tags; what is free, what could be mistaken, and what to ask first.

import type { OwnWords } from "../../book/own-words.ts";
import type { Leg, Web } from "../../trade/marks.ts";
import { capital } from "./capital.ts";
import { listed, plural } from "./everywhere.ts";

const WEB_WORDS: Readonly<Record<Web, string>> = {
  LO: "left outer",
  LI: "left inner",
  RI: "right inner",
  RO: "right outer",
};
const LEG_WORDS: Readonly<Record<Leg, string>> = { left: "left leg", right: "right leg" };

/** "left outer and right inner". */
export const websInWords = (webs: readonly Web[]): string => listed(webs.map((web) => WEB_WORDS[web]));

export interface TagWords {
  readonly kind: "ring" | "wing" | "web" | "chip";
  readonly colour?: string | null;
  readonly leg?: Leg | null;
  readonly text?: string | null;
}

/** "blue ring, left leg, 104". ring: the region's word. */
export function tagInWords(tag: TagWords, ring: string): string {
  const kinds = { ring, wing: "wing tag", web: "web tag", chip: "chip" };
  const what = tag.colour ? `${tag.colour} ${kinds[tag.kind]}` : kinds[tag.kind];
  return [what, tag.leg ? LEG_WORDS[tag.leg] : null, tag.text || null].filter(Boolean).join(", ");
}

export const marks = {
  mark: "Mark",
  markChicks: (young: string) => `Mark ${young}`,
  gone: "There are no chicks to mark here",
  goneRemedy: "Chicks are marked once they have hatched. Count them out at the hatch first.",
  title: {
    none: (family: string, young: string) => `${family}: ${young}, none marked`,
    some: (family: string, n: number, young: string) => `${family}: ${n} of ${young} still to mark`,
    all: (family: string, young: string) => `${family}: all ${young} are marked`,
  },
  batches: "Batches",
  over: (place: string) => `${place}, marks`,
  law: {
    label: "Before the first mark",
    title: "Check your country first",
    text: "Punching webs hurts for a moment, and the law differs from place to place. In England and Northern Ireland it is for farmed ducks only, within 36 hours of hatching, for breed improvement.",
    rule: "Follow local rules and your vet. Rings, wing tags and chips have rules of their own too.",
    yes: "Webs are allowed here and wanted",
    no: "Not allowed or not wanted here",
    source: (titles: string) => `Read in: ${titles}.`,
    noted: "Webs are left out on this phone: not allowed or not wanted here.",
    change: "Ask me about webs again",
  },
  ways: { label: "How to mark", webs: "Webs", ring: capital, wing: "Wing tag", web: "Web tag", chip: "Chip" },
  view: { label: "You see the feet", behind: "From behind", soles: "Soles up" },
  viewSaid: {
    behind: "As you stand behind the bird. Tap a web to punch it.",
    soles:
      "As you hold the soles up, toes away from you: left and right change sides, the webs keep their names.",
  },
  feet: { left: "Left foot", right: "Right foot" },
  web: WEB_WORDS,
  webName: (web: Web) => `${capital(WEB_WORDS[web])} web`,
  punched: "punched",
  whole: "whole",
  pattern: {
    none: "No web is tapped yet",
    noneHint: "No mark at all is not one: a chick that was missed looks the same.",
    told: (webs: readonly Web[]) => `${capital(websInWords(webs))}`,
    called: (label: string) => `You call it ${label}.`,
    own: (n: number) => `${plural(n, "chick", "chicks")} of this batch wear it already.`,
    heldBy: (names: string) => `${names} wears this pattern this season.`,
    free: "Free this season.",
    safe: ({ family }: OwnWords) => `Safe: if one web heals over, it reads as no other ${family.one}.`,
    next: (webs: readonly Web[]) => `Next free: ${websInWords(webs)}`,
    noneFree: "No pattern is left that could not be mistaken. Rings or wing tags tell these apart.",
    use: "Use it",
  },
  risk: {
    title: "Not safe",
    own: (web: Web, names: string) => `If the ${WEB_WORDS[web]} heals, this reads as ${names}.`,
    unmarked: (web: Web) => `If the ${WEB_WORDS[web]} heals, this reads as a chick nobody marked.`,
    other: (web: Web, names: string) => `If the ${WEB_WORDS[web]} of ${names} heals, theirs reads as this.`,
  },
  parity: {
    all: ({ family }: OwnWords) =>
      `Two webs or four, in every ${family.one} here: one web that heals always shows.`,
    broken: (names: string, { family }: OwnWords) =>
      `With two webs or four, one web that heals always shows, but only where every ${family.one} keeps to it: ${names} does not.`,
    odd: "Patterns of two webs or four show one healed web; this one does not.",
  },
  inUse: "In use this season",
  inUseLine: (names: string, what: string, n: number) => `${names}: ${what}, ${n} alive`,
  nothingInUse: ({ family }: OwnWords) => `No other ${family.one} of this breed wears a mark this season.`,
  clash: (names: string, place: string) =>
    `${names} shares ${place} and wears the same. Give these another mark before they mix.`,
  unmarkedBeside: (names: string, place: string) =>
    `${names} shares ${place} and wears no mark. Mark both before they mix.`,
  ring: {
    colour: "Colour",
    leg: "Leg",
    legs: { left: "Left", right: "Right" },
    text: "Number or letters, if any",
    textHint: "Left empty where all of the batch wear the same.",
    textOne: "Number or letters",
    next: (colour: string, leg: Leg) => `Next free: ${colour}, ${LEG_WORDS[leg]}`,
    noneFree: "Every colour is worn on both legs this season. Add a number, or use wing tags.",
    heldBy: (names: string, { family }: OwnWords) =>
      `${names} wears this already. Two ${family.many} with one mark cannot be told apart.`,
    twice: (who: string) => `${who} wears this number today. Two birds with one number cannot be told apart.`,
    one: "A number is for one bird: one is marked at a time.",
    need: "Choose a colour, or type what stands on it.",
    tight: (ring: string) =>
      `Legs grow and a ${ring} does not: a tight one cuts in. Look weekly until the birds are grown; it comes in Due.`,
    numbered: (ring: string, sizes: string) =>
      `Where a ${ring}'s size is a number, it is often sixteenths of an inch inside: ${sizes}. Others count by breed or in millimetres.`,
    size: (size: number, mm: string) => `${size} is ${mm} mm`,
    colours: {
      white: "White",
      blue: "Blue",
      yellow: "Yellow",
      black: "Black",
      red: "Red",
      green: "Green",
      orange: "Orange",
      pink: "Pink",
    } as Readonly<Record<string, string>>,
  },
  bird: {
    over: "One bird, marks",
    title: {
      none: (name: string) => `${name} wears no mark`,
      marked: (name: string) => `${name}: another mark`,
    },
    wears: "It wears",
    none: "Nothing yet.",
    first: (what: string) => `${what}, since it was written down`,
    later: (what: string, when: string) => `${what}, ${when}`,
    check: (name: string, what: string) => `${name}: ${what}`,
    yes: (name: string) => `Yes, ${name} is marked`,
    instead: "The mark before",
    beside: "Still there, if there is one",
    insteadOf: (what: string) => `Lost or come off: ${what}`,
    textHint: "A number tells this bird from the others of its family.",
    single: (n: number) => `${plural(n, "single bird", "single birds")} of this breed and season`,
    line: (whose: string, what: string) => `${whose}: ${what}`,
    markAgain: (name: string) => `Mark ${name}`,
  },
  howMany: "How many",
  check: {
    label: "Look once more",
    one: (family: string, what: string) => `One ${family} chick: ${what}`,
    yes: (n: number, family: string) => `Yes, ${n} ${family} marked`,
    back: "Change it",
  },
  go: (young: string) => `Mark ${young}`,
  wornHere: "Marked so far",
  wornLine: (n: string, what: string, when: string) => `${n}: ${what}, ${when}`,
  all: "all",
  undo: "Take back",
  again: {
    link: "Look at marks again",
    title: (family: string) => `${family}: are the marks still there?`,
    under: ({ family }: OwnWords) =>
      `A hole that grows together makes a chick read as one of another ${family.one}.`,
    webs: "Toe webs",
    websOpen: "All are open",
    websClosed: "Closed and punched again",
    websSave: (n: number) => `${plural(n, "web mark", "web marks")} punched again`,
    wear: (n: number, what: string) => (n === 1 ? `1 wears ${what}` : `${n} wear ${what}`),
    websClosedOf: (webs: readonly Web[]) => `Closed and punched again: ${websInWords(webs)}`,
    websSaveOf: (n: number, webs: readonly Web[]) => `${n} punched again: ${websInWords(webs)}`,
    rings: (ring: string) => capital(`${ring}s`),
    ringsOf: (names: string, place: string) => `A look is for all rings in ${place}: ${names}.`,
    ringsTurn: "All turn freely",
    ringsChanged: (ring: string) => `Changed for larger ${ring}s`,
    ringsChangedOf: (ring: string, what: string) => `Changed for larger ${ring}s: ${what}`,
    noted: (when: string) => `Last looked at ${when}.`,
    never: "Not looked at yet.",
    nothing: "No webs are punched and no rings are worn in this batch.",
  },
  key: {
    title: "Numbers for patterns",
    hint: "The book keeps the webs. A number is only your name for them: published keys give one pattern different numbers.",
    label: "Call patterns by",
    none: "Words only",
    sum: "A plain sum: from left to right 1, 2, 4, 8",
    own: "Labels of my own",
    labelOf: (webs: readonly Web[]) => `Your label for ${websInWords(webs)}`,
    save: "Keep this label",
  },
  practice: "How it is done",
  figures: (low: number, high: number) =>
    `Of filled rings put on day-old wood ducks, ${low} to ${high} of 100 stayed on.`,
} as const;
