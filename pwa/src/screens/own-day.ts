// A day in a form: the one that was typed, and until then the one offered, which moves on when the day turns.
import { useState } from "preact/hooks";

/** offered: today as it is now, or a day reckoned from it. typed: what stands in the book, where that is put right. */
export function useDay(
  offered: string,
  typed: string | null = null,
): readonly [day: string, type: (day: string) => void] {
  const [own, type] = useState(typed);
  return [own ?? offered, type];
}
