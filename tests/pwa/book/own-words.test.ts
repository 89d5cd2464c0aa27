import { expect, it } from "vitest";
import { inOwnWords, ownWords } from "../../../pwa/src/book/own-words.ts";
import { readVectors } from "../vectors.ts";

interface OwnWordsVectors {
  cases: {
    name: string;
    in: { words: Record<string, string> | null; text: string };
    out: { text: string; setting: [string, string] };
  }[];
}

const { cases } = readVectors("own_words") as OwnWordsVectors;

it.each(cases)("tells a text in the keeper's words: $name", ({ in: asked, out }) => {
  const own = ownWords(asked.words);
  expect(inOwnWords(asked.text, own)).toBe(out.text);
  expect([own.hatch.one, own.hatch.many]).toEqual(out.setting);
});
