import { describe, expect, it } from "vitest";
import { eggStore } from "../../../pwa/src/book/egg-store.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { readVectors } from "../vectors.ts";
import { entriesOf } from "./entries-of.ts";
import { storeJson } from "./store-json.ts";

interface StoreVectors {
  cases: { name: string; in: { now: string; entries: unknown[] }; out: unknown }[];
}

describe("what lies in store is what the server says", () => {
  const { cases } = readVectors("egg_store") as StoreVectors;

  it.each(cases)("$name", ({ in: asked, out }) => {
    expect(storeJson(eggStore(fold(entriesOf(asked.entries)), Date.parse(asked.now)))).toEqual(out);
  });
});
