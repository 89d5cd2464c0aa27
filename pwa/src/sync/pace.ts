const QUICK_BEFORE_MORE = 3;

/**
 * How many entries one request carries. On a slow line a full batch may never arrive within the time limit, so a
 * slow answer halves it, down to one entry; a few answers in time in a row double it again.
 */
export class Pace {
  readonly #most: number;
  #now: number;
  #quick = 0;

  constructor(most: number) {
    this.#most = most;
    this.#now = most;
  }

  get now(): number {
    return this.#now;
  }

  /** `carried`: how many the request carried that did not arrive in time. */
  slower(carried: number): void {
    this.#now = Math.max(1, Math.floor(Math.min(this.#now, carried) / 2));
    this.#quick = 0;
  }

  quick(): void {
    this.#quick += 1;
    if (this.#quick < QUICK_BEFORE_MORE) return;
    this.#now = Math.min(this.#most, this.#now * 2);
    this.#quick = 0;
  }
}

/** What the server takes and gives at most in one request. */
export interface Paces {
  readonly push: Pace;
  readonly pull: Pace;
}

export function fullPace(): Paces {
  return { push: new Pace(200), pull: new Pace(500) };
}
