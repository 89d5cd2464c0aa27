import { signal } from "@preact/signals";

/** The path of the screen that is shown, for instance "/setting/0199…/tally/candle". The router keeps it true. */
export const path = signal("/due");
/** What stands after the path's question mark, for instance which incubator was meant. */
export const query = signal(new URLSearchParams());

/** Where a screen wants to go by itself, after an act; links need no help. */
export type Go = (to: string, how?: "replace") => void;

let goes: Go = (to) => {
  path.value = to;
};

export function goTo(to: string, how?: "replace"): void {
  goes(to, how);
}

/** The router takes the steering. */
export function steer(go: Go): void {
  goes = go;
}
