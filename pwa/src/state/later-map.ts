import { byCodePoint } from "../book/code-points.ts";

/**
 * A map in pieces, in order of its keys, each piece made when one of its keys is asked for. Whoever walks over the
 * whole map makes all of them. `firsts` are the first keys of the pieces.
 */
export class LaterMap<V> implements ReadonlyMap<string, V> {
  readonly #firsts: readonly string[];
  readonly #make: (piece: number) => ReadonlyMap<string, V>;
  readonly #made: Map<number, ReadonlyMap<string, V>>;
  readonly #changed: ReadonlyMap<string, V>;

  constructor(
    firsts: readonly string[],
    make: (piece: number) => ReadonlyMap<string, V>,
    made = new Map<number, ReadonlyMap<string, V>>(),
    changed: ReadonlyMap<string, V> = new Map(),
  ) {
    this.#firsts = firsts;
    this.#make = make;
    this.#made = made;
    this.#changed = changed;
  }

  /** The same map with another value for a key that it has. */
  with(key: string, value: V): LaterMap<V> {
    return new LaterMap(this.#firsts, this.#make, this.#made, new Map(this.#changed).set(key, value));
  }

  get(key: string): V | undefined {
    if (this.#changed.has(key)) return this.#changed.get(key);
    const after = this.#firsts.findIndex((first) => byCodePoint(first, key) > 0);
    const piece = (after < 0 ? this.#firsts.length : after) - 1;
    return piece < 0 ? undefined : this.#piece(piece).get(key);
  }

  has(key: string): boolean {
    return this.get(key) !== undefined;
  }

  get size(): number {
    return this.#firsts.reduce((sum, _, piece) => sum + this.#piece(piece).size, 0);
  }

  *entries(): MapIterator<[string, V]> {
    for (const piece of this.#firsts.keys()) {
      for (const [key, value] of this.#piece(piece)) yield [key, this.#changed.get(key) ?? value];
    }
  }

  *keys(): MapIterator<string> {
    for (const [key] of this.entries()) yield key;
  }

  *values(): MapIterator<V> {
    for (const [, value] of this.entries()) yield value;
  }

  forEach(told: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this.entries()) told(value, key, this);
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries();
  }

  #piece(piece: number): ReadonlyMap<string, V> {
    const made = this.#made.get(piece) ?? this.#make(piece);
    this.#made.set(piece, made);
    return made;
  }
}
