import { correctionMs, heldMs } from "../book/moments.ts";
import { openDesk } from "./desk.ts";

/**
 * The book's clock: this phone's, set right by what the server last said of it. Acts are shown by it, so screens say
 * "today" by it and keepers say by it when an act was. An entry carries the phone's own time and how far that is off.
 */
export function bookNow_ms(): number {
  return inBook(openDesk().now_ms());
}

/** The book's time when this phone's clock shows `at_ms`. */
export function inBook(at_ms: number): number {
  return at_ms + correctionMs(openDesk().skew_ms());
}

/** What a phone that is so far off shows at a time of the book's. */
export function onPhone(at: Date, skew_ms: number | null): Date {
  return new Date(heldMs(at.getTime() - correctionMs(skew_ms)));
}
