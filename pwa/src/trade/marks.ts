/**
 * Patterns of punched toe webs: all sixteen, and which can be mistaken for another when a web heals. Mirrors
 * server/broodline/trade/marks.py over tests/vectors/marks.json.
 *
 * Webs are the bird's own, seen from behind: left outer and inner, right inner and outer.
 */

export const WEBS = ["LO", "LI", "RI", "RO"] as const;
export type Web = (typeof WEBS)[number];
/** Webs punched, in the order of WEBS. */
export type Pattern = readonly Web[];

/**
 * What one healed web would do. heals: this pattern, or one in use. readsAs: what it then is; nothing at all is a chick
 * that nobody marked.
 */
export interface Risk {
  readonly web: Web;
  readonly heals: Pattern;
  readonly readsAs: Pattern;
}

export const LEGS = ["left", "right"] as const;
export type Leg = (typeof LEGS)[number];

/** The webs in order, each once. */
export function patternOf(webs: Iterable<string>): Pattern {
  const punched = new Set(webs);
  return WEBS.filter((web) => punched.has(web));
}

/** The name under which a pattern and its label are kept: "LO+RI". */
export function patternKey(pattern: Pattern): string {
  return pattern.join("+");
}

/** All sixteen, by how many webs are punched; the first is none at all, which a missed chick bears too. */
export function patterns(): readonly Pattern[] {
  const all = Array.from({ length: 16 }, (_, bits) => WEBS.filter((_, at) => bits & (8 >> at)));
  return all.sort((a, b) => a.length - b.length || numberFromLeft(b) - numberFromLeft(a));
}

/** Those with two webs or all four: one healed web always shows, where every family's pattern is one of these. */
export function parityPatterns(): readonly Pattern[] {
  return patterns().filter((pattern) => pattern.length > 0 && pattern.length % 2 === 0);
}

/** Every way in which one healed web turns this pattern into one in use or into none, or one in use into this one. */
export function risks(pattern: Pattern, inUse: readonly Pattern[]): readonly Risk[] {
  const used = keysOf(inUse);
  const own = pattern
    .map((web): Risk => ({ web, heals: pattern, readsAs: pattern.filter((other) => other !== web) }))
    .filter(({ readsAs }) => readsAs.length === 0 || used.has(patternKey(readsAs)));
  const others = WEBS.filter((web) => !pattern.includes(web))
    .map((web): Risk => ({ web, heals: patternOf([...pattern, web]), readsAs: pattern }))
    .filter(({ heals }) => used.has(patternKey(heals)));
  return [...own, ...others];
}

/**
 * The pattern to give next: not in use, and none of its webs misleads when it heals. Patterns of two webs, then that of
 * four, come first. Null where every pattern left could be mistaken: rings or wing tags tell those chicks apart.
 */
export function nextFree(inUse: readonly Pattern[]): Pattern | null {
  const used = keysOf(inUse);
  const fit = [...parityPatterns(), ...patterns()].filter(
    (one) => one.length > 0 && !used.has(patternKey(one)),
  );
  return fit.find((one) => risks(one, inUse).length === 0) ?? null;
}

/** The pattern as a plain binary number, its webs read from left to right as 1, 2, 4, 8: one label among others. */
export function binarySum(pattern: Pattern): number {
  return pattern.reduce((sum, web) => sum + (1 << WEBS.indexOf(web)), 0);
}

/** The first colour and leg that nobody wears, or null; both legs of a colour before the next colour. */
export function nextFreeRing(
  colours: readonly string[],
  inUse: readonly (readonly [colour: string, leg: string])[],
): { readonly colour: string; readonly leg: Leg } | null {
  const used = new Set(inUse.map((ring) => JSON.stringify(ring)));
  const all = colours.flatMap((colour) => LEGS.map((leg) => ({ colour, leg })));
  return all.find(({ colour, leg }) => !used.has(JSON.stringify([colour, leg]))) ?? null;
}

function keysOf(inUse: readonly Pattern[]): ReadonlySet<string> {
  return new Set(inUse.map(patternKey));
}

function numberFromLeft(pattern: Pattern): number {
  return pattern.reduce((sum, web) => sum + (8 >> WEBS.indexOf(web)), 0);
}
