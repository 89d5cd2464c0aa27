import type { Entry } from "../book/entries.ts";
import { canonical } from "../book/wire.ts";
import { isHopeful } from "./placing.ts";
import type {
  ApartEntry,
  BookStorage,
  Change,
  KeptAnswer,
  KeptStart,
  KeptSum,
  PlacedEntry,
  Refusal,
  StoredEntry,
  WaitingEntry,
} from "./port.ts";
import { placedRow, storedEntry } from "./rows.ts";
import type { EntryRow } from "./schema.ts";
import { startFrom } from "./sums.ts";

/** The same port without a disk: for tests, and the plainest reading of what the port means. */
export class MemoryBook implements BookStorage {
  readonly holding: string;
  readonly #rows = new Map<string, EntryRow>();
  readonly #apart = new Map<string, ApartEntry>();
  readonly #answers = new Map<string, KeptAnswer>();
  readonly #told = new Set<(change: Change) => void>();
  readonly #unsummed = new Set<string>();
  #sum: KeptSum | null = null;
  #replaced = 0;
  #cursor: string | null = null;
  #offeredTo: string | null = null;
  #skew_ms: number | null = null;

  constructor(holding: string) {
    this.holding = holding;
  }

  async append(entries: readonly Entry[]): Promise<void> {
    for (const entry of entries) {
      const text = canonical(entry);
      const held = this.#rows.get(entry.id);
      if (!held) {
        this.#rows.set(entry.id, { id: entry.id, text, position: null, waiting: 1 });
        this.#unsummed.add(entry.id);
      } else if (held.text !== text) this.#keepApart(entry.id, text);
    }
    this.#tell({ kind: "rows", rows: await this.read(entries.map((entry) => entry.id)) });
  }

  async all(): Promise<StoredEntry[]> {
    return this.#sorted().map(storedEntry);
  }

  async page(after: string | null, most: number): Promise<StoredEntry[]> {
    const rest = this.#sorted().filter((row) => after === null || row.id > after);
    return rest.slice(0, most).map(storedEntry);
  }

  async read(ids: readonly string[]): Promise<StoredEntry[]> {
    return ids
      .map((id) => this.#rows.get(id))
      .filter((row) => row !== undefined)
      .map(storedEntry);
  }

  async waiting(): Promise<WaitingEntry[]> {
    return this.#sorted()
      .filter((row) => row.waiting === 1)
      .map(({ id, text }) => ({ id, text }));
  }

  async applyPage(rows: readonly PlacedEntry[], cursor: string): Promise<void> {
    for (const row of rows) {
      const held = this.#rows.get(row.id);
      if (!held) this.#unsummed.add(row.id);
      else if (held.text !== row.text) {
        this.#keepApart(held.id, held.text);
        this.#replaced += 1;
      }
      this.#rows.set(row.id, placedRow(row));
    }
    this.#cursor = cursor;
    this.#tell({ kind: "rows", rows: rows.map((row) => storedEntry(placedRow(row))) });
  }

  async cursor(): Promise<string | null> {
    return this.#cursor;
  }

  async resetPlaces(): Promise<void> {
    for (const { id, text } of this.#rows.values()) {
      this.#rows.set(id, { id, text, position: null, waiting: 1 });
    }
    this.#cursor = null;
    this.#tell({ kind: "reset" });
  }

  async setAside(id: string, refusal: Refusal): Promise<void> {
    const held = this.#rows.get(id);
    if (held?.position === null) this.#rows.set(id, { id, text: held.text, position: null, aside: refusal });
    this.#tell({ kind: "rows", rows: await this.read([id]) });
  }

  async offerAgain(version: string): Promise<void> {
    if (this.#offeredTo === version) return;
    this.#offeredTo = version;
    const again = this.#sorted().filter((row) => row.aside && isHopeful(row.aside));
    for (const { id, text } of again) this.#rows.set(id, { id, text, position: null, waiting: 1 });
    if (again.length > 0) this.#tell({ kind: "rows", rows: await this.read(again.map((row) => row.id)) });
  }

  async apart(): Promise<ApartEntry[]> {
    return [...this.#apart.values()];
  }

  async skew(): Promise<number | null> {
    return this.#skew_ms;
  }

  async keepSkew(skew_ms: number): Promise<void> {
    this.#skew_ms = skew_ms;
  }

  async answer(path: string): Promise<KeptAnswer | null> {
    return this.#answers.get(path) ?? null;
  }

  async keepAnswer(path: string, answer: KeptAnswer): Promise<void> {
    this.#answers.set(path, answer);
  }

  async keptSum(reader: string): Promise<KeptStart | null> {
    const rows = this.#sorted();
    const since = rows.filter((row) => this.#unsummed.has(row.id));
    const here = rows.filter((row) => row.position === null);
    return startFrom({ sum: this.#sum, n: rows.length, replaced: this.#replaced, since, here }, reader);
  }

  async replaced(): Promise<number> {
    return this.#replaced;
  }

  async keepSum(sum: KeptSum, saw: (id: string) => boolean): Promise<boolean> {
    const rest = new Set([...this.#unsummed].filter((id) => !saw(id)));
    if (sum.n + rest.size !== this.#rows.size || sum.replaced !== this.#replaced) return false;
    this.#sum = sum;
    for (const id of [...this.#unsummed]) if (!rest.has(id)) this.#unsummed.delete(id);
    return true;
  }

  async probe(): Promise<void> {}

  watch(told: (change: Change) => void): () => void {
    this.#told.add(told);
    return () => this.#told.delete(told);
  }

  close(): void {}

  #sorted(): EntryRow[] {
    return [...this.#rows.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  #keepApart(id: string, text: string): void {
    this.#apart.set(`${id} ${text}`, { id, text });
  }

  #tell(change: Change): void {
    for (const told of this.#told) told(change);
  }
}
