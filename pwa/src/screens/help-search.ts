// The handbook looked through as it is typed: word forms and slips of the finger included. Pure.
import { HELP_TOPICS, type HelpTopic, help as words } from "../app/words/help.ts";
import { alsoCalled } from "../app/words/help-trouble.ts";
import type { Region } from "../app/words/region.ts";
import { safety } from "../app/words/safety.ts";
import type { OwnWords } from "../book/own-words.ts";
import { CAUTIONS, linesOf } from "./help-steps.ts";

export interface Found {
  readonly topic: HelpTopic;
  readonly lines: readonly string[];
}

/** whole: some page holds all that was asked for. read: the words as they were taken, where one was mistyped. */
export interface Search {
  readonly found: readonly Found[];
  readonly whole: boolean;
  readonly read: string | null;
}

const MOST_LINES = 3;
const SMALL_WORDS = new Set(
  "a an and are at be but by can do does for from has have how i if in is it my not of on or out so the they to too was what when where which who why with you your".split(
    " ",
  ),
);

/**
 * Pages that hold every word asked for, or where there is none those that hold most; whose title says it come first,
 * then those with the most of them in one line, each with those lines. Nothing for nothing asked.
 */
export function lookThrough(asked: string, own: OwnWords, region: Region): Search {
  const typed = wordsOf(asked);
  const telling = typed.filter((word) => !SMALL_WORDS.has(word));
  const pages = HELP_TOPICS.map((topic) => {
    const lines = [...linesOf(topic, own, region), ...CAUTIONS[topic], safety.rule];
    return { topic, title: `${words.topics[topic]} ${words.headlines[topic]} ${alsoCalled[topic]}`, lines };
  });
  const known = new Set(pages.flatMap(({ title, lines }) => wordsOf([title, ...lines].join(" "))));
  const taken = (telling.length > 0 ? telling : typed).map((word) => nearest(word, known));
  const wanted = taken.map(stemOf);
  const found = pages
    .map(({ topic, title, lines }) => {
      const held = hitsOf([title, ...lines].join(" "), wanted);
      const best = Math.max(...lines.map((line) => hitsOf(line, wanted)));
      const titled = hitsOf(words.topics[topic], wanted) + hitsOf(words.headlines[topic], wanted);
      const shown =
        best > 0 ? lines.filter((line) => hitsOf(line, wanted) === best) : [words.headlines[topic]];
      return { topic, held, best, titled, lines: shown.slice(0, MOST_LINES) };
    })
    .filter(({ held }) => held > 0);
  const most = Math.max(0, ...found.map(({ held }) => held));
  return {
    found: found
      .filter(({ held }) => held === most)
      .sort((a, b) => b.best - a.best || b.titled - a.titled)
      .map(({ topic, lines }) => ({ topic, lines })),
    whole: most === wanted.length,
    read: taken.join(" ") === (telling.length > 0 ? telling : typed).join(" ") ? null : taken.join(" "),
  };
}

function wordsOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
}

/** How many of the stems begin a word of the text. */
function hitsOf(text: string, wanted: readonly string[]): number {
  const has = wordsOf(text);
  return wanted.filter((stem) => has.some((word) => word.startsWith(stem))).length;
}

/** A word without the ending that its forms differ in: "candling", "candleing" and "candles" are one. */
function stemOf(word: string): string {
  const bare =
    word.length > 5 ? word.replace(/(ings?|ed|e?s|ers?|ors?)$/, "") : word.replace(/(?<=...)s$/, "");
  return bare.length > 4 ? bare.replace(/e$/, "") : bare;
}

/** The word itself where the handbook has a form of it, else the one a slip or two away, else itself. */
function nearest(word: string, known: ReadonlySet<string>): string {
  const stem = stemOf(word);
  const slips = word.length > 6 ? 2 : word.length > 3 ? 1 : 0;
  if (slips === 0 || [...known].some((one) => one.startsWith(stem))) return word;
  const near = [...known]
    .map((one) => ({ one, off: slipsBetween(word, one) }))
    .filter(({ off }) => off <= slips)
    .sort((a, b) => a.off - b.off);
  return near[0]?.one ?? word;
}

/** Letters left out, put in, changed, or changed over with their neighbour (optimal string alignment). */
function slipsBetween(one: string, other: string): number {
  let before: number[] = [];
  let above = Array.from({ length: other.length + 1 }, (_, j) => j);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    for (let j = 1; j <= other.length; j++) {
      const same = one[i - 1] === other[j - 1];
      const over = i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1];
      const ways = [(above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + (same ? 0 : 1)];
      if (over) ways.push((before[j - 2] ?? 0) + 1);
      row.push(Math.min(...ways));
    }
    [before, above] = [above, row];
  }
  return above[other.length] ?? 0;
}
