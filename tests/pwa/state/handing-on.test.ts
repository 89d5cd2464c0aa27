import { describe, expect, it } from "vitest";
import { canHandOn, handOn } from "../../../pwa/src/state/handing-on.ts";

const COPY = { name: "Gorse-Bank-2026-03-08.jsonl", text: '{"id":1}\n' };

/** A phone that hands on files with these endings. */
function phone(endings: string[], answer: () => Promise<void> = async () => undefined) {
  const given: File[] = [];
  const sharer = {
    canShare: ({ files = [] }: ShareData = {}) =>
      files.every((file) => endings.some((it) => file.name.endsWith(it))),
    share: ({ files = [] }: ShareData = {}) => {
      given.push(...files);
      return answer();
    },
  };
  return { sharer, given };
}

describe("a copy handed to another app", () => {
  it("goes as lines of JSON where the phone takes them, else as text", async () => {
    const [any, texts] = [phone([""]), phone([".txt"])];
    expect([await handOn(COPY, any.sharer), await handOn(COPY, texts.sharer)]).toEqual(["sent", "sent"]);
    expect([any.given[0]?.name, texts.given[0]?.name]).toEqual([COPY.name, `${COPY.name}.txt`]);
    expect(await texts.given[0]?.text()).toBe(COPY.text);
  });

  it("is not offered where the phone hands on no files", () => {
    expect([{}, { share: async () => undefined }, phone([".png"]).sharer].map(canHandOn)).toEqual([
      false,
      false,
      false,
    ]);
    expect(canHandOn(phone([".jsonl"]).sharer)).toBe(true);
  });

  it("tells a keeper who turned back from a phone that refused, so that it can be saved instead", async () => {
    const name = (word: string) => () => Promise.reject(new DOMException("no", word));
    expect(await handOn(COPY, phone([""], name("AbortError")).sharer)).toBe("left");
    expect(await handOn(COPY, phone([""], name("NotAllowedError")).sharer)).toBe("refused");
  });
});
