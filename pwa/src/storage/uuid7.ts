/** Fills with random bytes; handed in, so that tests repeat. */
export type RandomBytes = (bytes: Uint8Array<ArrayBuffer>) => void;

const COUNTER_END = 0x1000;

/**
 * Makes ids of version 7 (RFC 9562, section 5.7; the counter of section 6.2, method 1): milliseconds, a counter
 * in the next 12 bits, then 62 random bits. Ids of one install only grow, also when the clock jumps back:
 * `startAfter` tells the maker of ids that this phone wrote earlier.
 */
export class IdMaker {
  readonly #now_ms: () => number;
  readonly #random: RandomBytes;
  #last_ms = 0;
  #counter = COUNTER_END;

  constructor(now_ms: () => number, random: RandomBytes) {
    this.#now_ms = now_ms;
    this.#random = random;
  }

  startAfter(id: string): void {
    const ms = Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);
    const counter = Number.parseInt(id.slice(15, 18), 16);
    if (ms > this.#last_ms || (ms === this.#last_ms && counter > this.#counter)) {
      this.#last_ms = ms;
      this.#counter = counter;
    }
  }

  next(): string {
    const bytes = new Uint8Array(16);
    this.#random(bytes);
    const now_ms = Math.floor(this.#now_ms());
    this.#counter += 1;
    if (now_ms > this.#last_ms || this.#counter >= COUNTER_END) {
      this.#last_ms = Math.max(now_ms, this.#last_ms + 1);
      // Start in the lower half, so that a burst within one millisecond has room to count up.
      this.#counter = (((bytes[6] ?? 0) & 0x07) << 8) | (bytes[7] ?? 0);
    }
    const ms = this.#last_ms.toString(16).padStart(12, "0");
    const counter = this.#counter.toString(16).padStart(3, "0");
    bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
    const tail = [...bytes.subarray(8)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    return `${ms.slice(0, 8)}-${ms.slice(8)}-7${counter}-${tail.slice(0, 4)}-${tail.slice(4)}`;
  }
}
