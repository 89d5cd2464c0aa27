// The pairing desk: next season's pens, put together by the server or by hand.
import { chanceTold, pct } from "./answers.ts";
import { plural } from "./everywhere.ts";

interface Mean {
  readonly mean: number | null;
  readonly notKnown: { readonly n: number; readonly of: number };
}

const leftOut = ({ notKnown: { n, of } }: Mean, what: string) =>
  n === 0 ? "" : ` (${n} of ${of} ${what}: not known)`;

const told = (one: Mean, what: string) =>
  one.mean === null ? "not known" : `${pct(one.mean)}${leftOut(one, what)}`;

export const pairing = {
  waiting: "Pens for next season",
  headline: (plan: Mean, today: Mean | null) =>
    `These pens: ${plan.mean === null ? "inbreeding not known" : `${pct(plan.mean)} inbreeding in their chicks`}${today === null ? "" : `, ${today.mean === null ? "not known" : pct(today.mean)} as they stand today`}`,
  hensNotKnown: (plan: Mean, today: Mean | null) => {
    const out = [
      [plan, "in these pens"] as const,
      ...(today === null ? [] : [[today, "as they stand today"] as const]),
    ].filter(([one]) => one.mean !== null && one.notKnown.n > 0);
    return out.length === 0
      ? ""
      : `Left out, as forebears are not known: ${out
          .map(([{ notKnown }, where]) => `${notKnown.n} of ${plural(notKnown.of, "hen", "hens")} ${where}`)
          .join(", ")}.`;
  },
  none: "No plan fits these limits",
  noBirds: "There are no birds to pair yet",
  random: (random: Mean, mixed: number | null, families: string) =>
    `Mated at random it would be ${told(random, "matings")}${mixed === null ? "" : `, with hens of all ${families} mixed at least ${pct(mixed)}`}.`,
  relax: "What would help",
  wishes: "What the pens must keep to",
  breed: "Breed",
  pens: "Pens",
  byFamilies: (families: string) => `As many as ${families}`,
  hens: "Hens in a pen",
  shared: "Shared out evenly",
  cocks: (cock: string) => `${cock}s in a pen`,
  limit: "Inbreeding to stay under",
  apart: (family: string) => `Hens of one ${family} only in a pen`,
  followMoves: "The pens follow the year's moves of males",
  yes: "Yes",
  no: "No",
  kept: "Of the young birds only those to keep",
  underLimit: "No mating at the limit or over it",
  asked: {
    title: (n: number) =>
      n === 0
        ? "Name birds to be used, pairs to go together, pairs never to meet"
        : `Named for this plan: ${n}`,
    way: "What is asked",
    ways: { never: "Never this pair", together: "This pair together", use: "Use this bird" },
    choose: "Choose",
    add: "Ask for it",
    remove: "Take away",
    use: (bird: string) => `${bird} is used`,
    together: (cock: string, hen: string) => `${cock} and ${hen} share a pen`,
    never: (cock: string, hen: string) => `${cock} and ${hen} never meet`,
    lasting: "For this plan only. A bird's own page rules pairs out for good.",
  },
  goneBird: "a bird that is no longer here",
  plan: "The pens",
  put: "Put this pen together",
  putFor: (cocks: string) => `Put this pen together: ${cocks}`,
  pen: (n: number) => `Pen ${n}`,
  penOf: (name: string, home: string | undefined, cocks: string, giver: string | undefined) =>
    `${name}${home ? `, ${home}'s hens` : ""}${cocks && `: ${cocks}`}${giver ? ` of ${giver}` : ""}`,
  notProved: "The best that was found; there may be a better one.",
  figures: (mean: number, worst: number) => `${pct(mean)} expected, at most ${pct(worst)}`,
  over: (over: number, limit: number, error: number | null) =>
    `${chanceTold(over)} chance of ${pct(limit)} or more${error === null ? "" : ` (in draws, give or take ${Math.max(0.1, 100 * error).toFixed(1)})`}`,
  unknown: "No inbreeding that is known of; not all forebears are known",
  partly: "Not all forebears are known",
  empty: "Needs a cock and a hen",
  mind: (words: string) => `Mind: ${words}`,
  byHand: "Change by hand",
  from: { plan: "Back to the plan", today: "Start from today's pens" },
  handTitle: "Put together by hand",
  handResult: (hand: Mean | null, plan: Mean | null) =>
    hand === null
      ? "No pen has both a cock and a hen yet."
      : `By hand ${told(hand, "hens")}${plan === null ? "" : `; the plan has ${told(plan, "hens")}`}.`,
  to: (label: string) => `${label} goes to`,
  out: "No pen",
  without: "In no pen",
  newPen: "One pen more",
  today: "As the pens stand today",
  table: "Each mating, inbreeding in percent",
  tableOf: (first: string, last: string) => `Each mating, ${first} to ${last}`,
  tableNote: (limit: number) =>
    `Underlined: the chance of ${pct(limit)} or more. Struck out: ruled out. Question mark: forebears not written down.`,
  hen: "Hen",
  cell: (sire: string, dam: string, mean: string, over: string) => `${sire} with ${dam}: ${mean}${over}`,
  notes: "What speaks against a mating",
  birds: "The birds, least kin to the flock first",
  bird: "Bird",
  kinship: "Mean kinship",
  hatch: "Its own hatch",
  eggs: "Eggs it stands behind",
  hatchTold: (hatched: number, eggs: number, helped: number, weak: number) =>
    `${Math.round(hatched)} of ${Math.round(eggs)} hatched${helped >= 0.5 ? `, ${Math.round(helped)} helped` : ""}${weak >= 0.5 ? `, ${Math.round(weak)} weak` : ""}`,
  carries: "Carries",
  moves: "Moving cocks between families",
  movesNext: "The year after",
  curve: "Inbreeding over 20 generations",
  curveFinding: (circle: number, closed: number) =>
    `After 10 generations ${pct(circle)} with the moves, ${pct(closed)} with each family closed`,
  curveAxes: "Generations across, inbreeding in percent upwards",
  lines: {
    circle: "with these moves",
    flock: "one flock",
    closed: "closed",
    rolling: "rolling matings, by year",
  },
  generation: "Generation",
  spare: (n: number) => plural(n, "bird", "birds"),
} as const;
