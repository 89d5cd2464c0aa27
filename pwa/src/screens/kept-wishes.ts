import { useState } from "preact/hooks";
import { desk } from "../state/desk.ts";

const kept = new Map<string, unknown>();

/** As useState, for what is asked of a page: whoever comes back to it, in the same book, finds it as it was left. */
export function useKept<Value>(of: string, start: Value): [Value, (value: Value) => void] {
  const name = `${desk.value?.card.id} ${of}`;
  const [value, setValue] = useState(kept.has(name) ? (kept.get(name) as Value) : start);
  const keep = (next: Value) => {
    kept.set(name, next);
    setValue(() => next);
  };
  return [value, keep];
}
