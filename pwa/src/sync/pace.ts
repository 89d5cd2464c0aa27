const MOST_PUSHED = 200;
const MOST_PULLED = 500;

/**
 * How much one request carries. On a slow line a full batch may never arrive within the time limit, so a slow
 * answer halves it, down to one entry; each answer in time doubles it again.
 */
export class Pace {
  #push = MOST_PUSHED;
  #pull = MOST_PULLED;

  get push(): number {
    return this.#push;
  }

  get pull(): number {
    return this.#pull;
  }

  slower(): void {
    this.#push = Math.max(1, Math.floor(this.#push / 2));
    this.#pull = Math.max(1, Math.floor(this.#pull / 2));
  }

  faster(): void {
    this.#push = Math.min(MOST_PUSHED, this.#push * 2);
    this.#pull = Math.min(MOST_PULLED, this.#pull * 2);
  }
}
