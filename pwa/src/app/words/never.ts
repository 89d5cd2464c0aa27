// What a bird carries, and whom it is never to be paired with.
export const never = {
  link: "Never pair",
  title: (label: string) => `${label}: never pair`,
  under:
    "What is ruled out here is ruled out in every plan of pens, with your reason beside it. Nothing is blocked in the yard.",
  carries: "What it carries",
  carriesHint: "With commas: crest, short legs",
  carriesSave: "Write down what it carries",
  what: "What is ruled out",
  itself: "This bird",
  trait: (text: string) => `All that carry ${text}`,
  with: "Never with",
  choose: "Choose",
  why: "Why, if you like",
  add: "Rule this pair out",
  all: "Ruled out so far",
  none: "Nothing is ruled out for this bird.",
  rule: (one: string, other: string, why: string) => `${one} and ${other}${why ? `: ${why}` : ""}`,
  allow: "Allow again",
  needHolding: "Name your place first: what is ruled out is kept with it.",
  toHolding: "Name the place",
} as const;
