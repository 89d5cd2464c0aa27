/** The browser's caches in memory, as far as the worker uses them; in order of creation, as the standard says. */
export class MemoryCaches {
  readonly held = new Map<string, Map<string, Response>>();

  async open(name: string) {
    const cache = this.held.get(name) ?? new Map<string, Response>();
    this.held.set(name, cache);
    return {
      put: async (url: string, response: Response) => void cache.set(pathOf(url), response),
      keys: async () => [...cache.keys()].map((path) => ({ url: `http://app.test${path}` })),
      match: async (url: string) => cache.get(pathOf(url))?.clone(),
    };
  }

  async match(url: string): Promise<Response | undefined> {
    for (const cache of this.held.values()) {
      const found = cache.get(pathOf(url));
      if (found) return found.clone();
    }
    return undefined;
  }

  async keys(): Promise<string[]> {
    return [...this.held.keys()];
  }

  async delete(name: string): Promise<boolean> {
    return this.held.delete(name);
  }
}

const pathOf = (url: string) => new URL(url, "http://app.test").pathname;
