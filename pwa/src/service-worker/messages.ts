/** What a page may tell the waiting worker: the keeper said yes to the newer app. */
export interface TakeOver {
  readonly kind: "take_over";
}

export const TAKE_OVER: TakeOver = { kind: "take_over" };

export function isTakeOver(value: unknown): value is TakeOver {
  return typeof value === "object" && value !== null && "kind" in value && value.kind === TAKE_OVER.kind;
}
