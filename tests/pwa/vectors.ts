import { readFileSync } from "node:fs";

/**
 * A file of tests/vectors/, which pytest reads too. Parsed as text: an import would turn a key "__proto__" into a
 * prototype.
 */
export function readVectors(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../vectors/${name}.json`, import.meta.url), "utf8"));
}
