// What a page asks of the server when it is opened, and the acts on it: each answer takes the place of the one before.
import { useEffect, useState } from "preact/hooks";
import { asking } from "../app/words/asking.ts";
import type { Told } from "../state/told.ts";

export interface Asked<T> {
  /** Null until the server answered. */
  readonly value: T | null;
  /** Why the last question has no answer, in words. */
  readonly fault: string | null;
  readonly busy: boolean;
  /** Shows an act's answer; gives whether it was done. */
  readonly act: (doing: Promise<Told<T>>) => Promise<boolean>;
}

export function useAsked<T>(ask: () => Promise<Told<T>>): Asked<T> {
  const [value, setValue] = useState<T | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const act = async (doing: Promise<Told<T>>) => {
    setBusy(true);
    const told = await doing;
    setBusy(false);
    setFault(told.kind === "ok" ? null : told.kind === "away" ? asking.away : told.words);
    if (told.kind === "ok") setValue(told.value);
    return told.kind === "ok";
  };
  useEffect(() => void act(ask()), []);
  return { value, fault, busy, act };
}
