import { createHash, webcrypto } from "node:crypto";
import { describe, expect, it } from "vitest";
import { cleared } from "../../../pwa/src/app/words/cleared.ts";
import { isTold, KEEP_ME, KEPT, TAKE_OVER } from "../../../pwa/src/service-worker/messages.ts";
import {
  cacheName,
  completeCache,
  dropOldCaches,
  FILE_LIMIT_MS,
  fillCache,
  type PrecachedFile,
  type Surroundings,
} from "../../../pwa/src/service-worker/precache.ts";
import { serve, servingOf } from "../../../pwa/src/service-worker/serving.ts";
import { MemoryCaches } from "./caches.ts";

const ORIGIN = "http://app.test";
const PAGE = "<!doctype html><title>Broodline</title>";
const revision = createHash("sha256").update(PAGE).digest("hex").slice(0, 16);
const FILES: PrecachedFile[] = [
  { url: "/index.html", revision },
  { url: "/assets/index-abc.js", revision: null },
];

function network(answers: Record<string, () => Response>) {
  const caches = new MemoryCaches();
  const asked: string[] = [];
  const around: Surroundings = {
    caches: caches as unknown as CacheStorage,
    fetch: async (request) => {
      const { pathname } = new URL(request.url);
      asked.push(pathname);
      const answer = answers[pathname];
      if (!answer) throw new TypeError("no server");
      return answer();
    },
    subtle: webcrypto.subtle as unknown as SubtleCrypto,
    origin: ORIGIN,
    limit: () => new AbortController().signal,
  };
  return { around, caches, asked };
}

const html = (text: string) => () => new Response(text, { headers: { "Content-Type": "text/html" } });
const script = () => new Response("1", { headers: { "Content-Type": "text/javascript" } });
const GOOD = { "/index.html": html(PAGE), "/assets/index-abc.js": script };

describe("filling the cache", () => {
  it("keeps every file of the build", async () => {
    const { around, caches } = network(GOOD);
    await fillCache(around, "one", FILES);
    expect([...(caches.held.get(cacheName("one"))?.keys() ?? [])].sort()).toEqual([
      "/assets/index-abc.js",
      "/index.html",
    ]);
  });

  const wrongs: [string, Record<string, () => Response>][] = [
    ["a file is missing", { "/index.html": html(PAGE) }],
    ["a file is not found", { ...GOOD, "/assets/index-abc.js": () => new Response("no", { status: 404 }) }],
    ["a hotspot's page comes for a script", { ...GOOD, "/assets/index-abc.js": html("<h1>Sign in</h1>") }],
    ["a hotspot's page comes for the app's page", { ...GOOD, "/index.html": html("<h1>Sign in</h1>") }],
  ];
  for (const [name, answers] of wrongs) {
    it(`fails as a whole when ${name}`, async () => {
      await expect(fillCache(network(answers).around, "one", FILES)).rejects.toThrow();
    });
  }

  describe("comes to an end where something hangs, so that it can be tried again:", () => {
    const never = new Promise<never>(() => undefined);
    const hangs: [string, (around: Surroundings, caches: MemoryCaches) => void][] = [
      [
        "a server that takes the request and never answers",
        (around) => {
          Object.assign(around, { fetch: () => never });
        },
      ],
      [
        "an answer that stops half way",
        (around) => {
          const half = () =>
            new Response(new ReadableStream({ pull: () => never }), {
              headers: { "Content-Type": "text/html" },
            });
          Object.assign(around, {
            fetch: async ({ url }: Request) => (url.endsWith(".html") ? half() : script()),
          });
        },
      ],
      [
        "a cache that never says whether it kept the file",
        (_, caches) => {
          const open = caches.open.bind(caches);
          caches.open = async (name) => ({ ...(await open(name)), put: () => never });
        },
      ],
    ];
    for (const [name, hang] of hangs) {
      it(name, async () => {
        const { around, caches } = network(GOOD);
        const limits: AbortController[] = [];
        Object.assign(around, {
          limit: (ms: number) => {
            expect(ms).toBe(FILE_LIMIT_MS);
            limits.push(new AbortController());
            return limits.at(-1)?.signal;
          },
        });
        hang(around, caches);
        const filled = fillCache(around, "one", FILES).then(
          () => "filled",
          (fault: Error) => fault.message,
        );
        await new Promise((later) => setTimeout(later, 0));
        for (const limit of limits) limit.abort(new Error("too long"));
        expect(await filled).toBe("too long");
      });
    }
  });

  it("hands the limit to the request, so that a line is not held for nothing", async () => {
    const { around } = network(GOOD);
    const limit = new AbortController();
    const asked: Request[] = [];
    Object.assign(around, {
      limit: () => limit.signal,
      fetch: async (request: Request) => {
        asked.push(request);
        throw new TypeError("no server");
      },
    });
    await expect(fillCache(around, "one", FILES)).rejects.toThrow("no server");
    limit.abort();
    expect(asked.map((request) => request.signal.aborted)).toEqual([true, true]);
  });

  it("is done again for what the browser cleared, and only then asks anybody", async () => {
    const { around, caches, asked } = network(GOOD);
    await fillCache(around, "one", FILES);
    asked.length = 0;
    await completeCache(around, "one", FILES);
    expect(asked).toEqual([]);
    caches.held.get(cacheName("one"))?.delete("/assets/index-abc.js");
    await completeCache(around, "one", FILES);
    expect(asked).toContain("/assets/index-abc.js");
    caches.held.get(cacheName("one"))?.delete("/index.html");
    await expect(
      completeCache({ ...around, fetch: () => Promise.reject(new TypeError("no server")) }, "one", FILES),
    ).rejects.toThrow("no server");
  });

  it("takes files whose names hold a hash over from the build before", async () => {
    const { around, asked } = network(GOOD);
    await fillCache(around, "one", FILES);
    await fillCache(around, "two", FILES);
    expect(asked.sort()).toEqual(["/assets/index-abc.js", "/index.html", "/index.html"]);
  });

  const builds = async (caches: MemoryCaches) =>
    (await caches.keys()).filter((name) => name.startsWith(cacheName(""))).map((name) => name.slice(-3));

  it("keeps the build that was at work before and drops older ones, and nobody else's caches", async () => {
    const { around, caches } = network(GOOD);
    await caches.open("somebody-else");
    for (const build of ["one", "two", "thr"]) {
      await caches.open(cacheName(build));
      await dropOldCaches(around, build);
    }
    expect(await builds(caches)).toEqual(["two", "thr"]);
    expect(await caches.keys()).toContain("somebody-else");
  });

  it("keeps what open pages need, however many installs failed or never came to work since", async () => {
    const { around, caches } = network(GOOD);
    await caches.open(cacheName("old"));
    await caches.open(cacheName("now"));
    await dropOldCaches(around, "now"); // the first build that writes this down: nobody knows what was before
    expect(await builds(caches)).toEqual(["old", "now"]);
    for (const build of ["bad", "odd", "new"]) await caches.open(cacheName(build));
    await dropOldCaches(around, "new");
    expect(await builds(caches)).toEqual(["now", "new"]);
  });

  it("drops nothing where it cannot write down which build is at work", async () => {
    const { around, caches } = network(GOOD);
    for (const build of ["one", "two", "thr"]) await caches.open(cacheName(build));
    await dropOldCaches(around, "one");
    const full = {
      keys: () => caches.keys(),
      delete: (name: string) => caches.delete(name),
      open: async (name: string) => ({
        ...(await caches.open(name)),
        put: () => Promise.reject(new DOMException("", "QuotaExceededError")),
      }),
    } as unknown as CacheStorage;
    await expect(dropOldCaches({ caches: full }, "thr")).rejects.toThrow();
    expect(await builds(caches)).toEqual(["one", "two", "thr"]);
  });
});

describe("serving", () => {
  const ask = (path: string, mode: RequestMode = "cors", method = "GET", origin = ORIGIN) =>
    servingOf({ url: origin + path, mode, method }, origin === ORIGIN ? ORIGIN : "http://app.test", FILES);

  it("gives every place inside the app its page, and leaves the server's own addresses alone", () => {
    expect(["/", "/due", "/setting/0199/tally/candle"].map((path) => ask(path, "navigate"))).toEqual([
      "shell",
      "shell",
      "shell",
    ]);
    expect(
      ["/api/v1/papers/season/2026.pdf", "/calendar/x.ics", "/healthz", "/sw.js"].map((path) =>
        ask(path, "navigate"),
      ),
    ).toEqual(["leave", "leave", "leave", "leave"]);
    expect(ask("/api/v1/pull")).toBe("leave");
    expect(ask("/due", "navigate", "POST")).toBe("leave");
    expect(ask("/assets/index-abc.js", "cors", "GET", "http://elsewhere.test")).toBe("leave");
  });

  it("knows the build's files and the assets of other builds", () => {
    expect([
      ask("/index.html"),
      ask("/assets/index-abc.js"),
      ask("/assets/old-1.js"),
      ask("/other.txt"),
    ]).toEqual(["file", "file", "file", "leave"]);
  });

  it("answers from its own build without any server", async () => {
    const { around, asked } = network(GOOD);
    await fillCache(around, "one", FILES);
    asked.length = 0;
    const request = { url: `${ORIGIN}/setting/0199` } as Request;
    expect(await (await serve(around, "one", request, "shell")).text()).toBe(PAGE);
    expect(asked).toEqual([]);
  });

  it("gives an old page the files of its own build", async () => {
    const { around, caches } = network(GOOD);
    await fillCache(around, "two", FILES);
    const old = await caches.open(cacheName("one"));
    await old.put("/assets/old-1.js", new Response("old"));
    const request = { url: `${ORIGIN}/assets/old-1.js` } as Request;
    expect(await (await serve(around, "two", request, "file")).text()).toBe("old");
  });

  it("asks the network where the browser cleared the cache", async () => {
    const { around } = network(GOOD);
    const request = new Request(`${ORIGIN}/index.html`);
    expect(await (await serve(around, "one", request, "file")).text()).toBe(PAGE);
  });

  it("tells with each page that the browser cleared the cache, so that it is filled again", async () => {
    const { around, caches } = network(GOOD);
    const request = new Request(`${ORIGIN}/index.html`);
    let missing = 0;
    const open = async () => (await serve(around, "one", request, "shell", () => (missing += 1))).text();
    expect([await open(), missing]).toEqual([PAGE, 1]);
    await fillCache(around, "one", FILES);
    expect([await open(), missing]).toEqual([PAGE, 1]);
    caches.held.clear();
    await serve(around, "one", request, "file", () => (missing += 1));
    expect(missing).toBe(1);
  });

  it("says in words that the cache was cleared where no server is near, and claims nothing else", async () => {
    const page = await serve(network({}).around, "one", new Request(`${ORIGIN}/due`), "shell");
    expect([page.status, page.headers.get("Content-Security-Policy")]).toEqual([503, "default-src 'none'"]);
    expect(await page.text()).toContain(cleared.title);
    const script = new Request(`${ORIGIN}/assets/index-abc.js`);
    await expect(serve(network({}).around, "one", script, "file")).rejects.toThrow("no server");
  });
});

it("takes over on the keeper's word only", () => {
  const told = [TAKE_OVER, KEEP_ME, KEPT, { kind: "other" }, null, "take_over"];
  expect(told.map((one) => isTold(one, TAKE_OVER))).toEqual([true, false, false, false, false, false]);
  expect(told.map((one) => isTold(one, KEPT))).toEqual([false, false, true, false, false, false]);
});
