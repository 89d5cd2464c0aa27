import { isUnsent, type Picture, type PictureStorage, type PictureWay } from "./pictures.ts";
import type { Refusal } from "./port.ts";

/** The same port without a disk: for tests, and the plainest reading of what the port means. */
export class MemoryPictures implements PictureStorage {
  readonly holding: string;
  readonly #pictures = new Map<string, Picture>();
  readonly #ways = new Map<string, PictureWay>();
  readonly #told = new Set<() => void>();

  constructor(holding: string) {
    this.holding = holding;
  }

  async keep(picture: Picture): Promise<void> {
    const { sha256, bytes } = picture;
    if (!this.#ways.has(sha256)) {
      this.#pictures.set(sha256, { ...picture, bytes: bytes.slice(0) });
      this.#ways.set(sha256, { sha256, n: this.#ways.size, sent_epoch: null, refusal: null });
    }
    this.#tell();
  }

  async read(sha256: string): Promise<Picture | null> {
    return this.#pictures.get(sha256) ?? null;
  }

  async way(sha256: string): Promise<PictureWay | null> {
    return this.#ways.get(sha256) ?? null;
  }

  async unsent(epoch: string): Promise<string[]> {
    return [...this.#ways.values()].filter((way) => isUnsent(way, epoch)).map((way) => way.sha256);
  }

  async markSent(sha256: string, epoch: string): Promise<void> {
    this.#change(sha256, { sent_epoch: epoch, refusal: null });
  }

  async refuse(sha256: string, refusal: Refusal): Promise<void> {
    this.#change(sha256, { refusal });
  }

  async forgetSent(): Promise<void> {
    for (const sha256 of this.#ways.keys()) this.#change(sha256, { sent_epoch: null, refusal: null });
  }

  watch(told: () => void): () => void {
    this.#told.add(told);
    return () => this.#told.delete(told);
  }

  close(): void {}

  #change(sha256: string, change: Partial<PictureWay>): void {
    const way = this.#ways.get(sha256);
    if (way) this.#ways.set(sha256, { ...way, ...change });
    this.#tell();
  }

  #tell(): void {
    for (const told of this.#told) told();
  }
}
