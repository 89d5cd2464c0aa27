import { expect, it } from "vitest";
import { isImported, isUnnamedMachine } from "../../../pwa/src/book/imported.ts";
import { readVectors } from "../vectors.ts";

const { cases } = readVectors("imported") as { cases: { name: string; in: string; out: unknown }[] };

it.each(cases)("$name", ({ in: id, out }) => {
  expect({ imported: isImported(id), unnamed_machine: isUnnamedMachine(id) }).toEqual(out);
});
