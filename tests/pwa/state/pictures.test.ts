import { createHash } from "node:crypto";
import "fake-indexeddb/auto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { fitted, NoPicture } from "../../../pwa/src/state/picture-making.ts";
import { type ShownPicture, takePicture, watchPicture } from "../../../pwa/src/state/pictures.ts";
import { entries } from "../../../pwa/src/state/standing.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import { picturesOf } from "../../../pwa/src/storage/pictures-indexed.ts";
import { ModelServer } from "../sync/model-server.ts";
import { browser, killApp, NOW_MS } from "./surroundings.ts";

afterEach(killApp);

const bytes = new TextEncoder().encode("what the canvas gave");
const SHA256 = createHash("sha256").update(bytes).digest("hex");
const OTHER = "b".repeat(64);
const made = async () => ({
  type: "image/jpeg",
  width: 1200,
  height: 1600,
  bytes: bytes.buffer as ArrayBuffer,
});
const photos = () => entries.value.filter((entry) => entry.kind === "photo");

/** A book of its own for each test, and the pictures beside it. */
async function opened() {
  await openAtStart(browser().around);
  return picturesOf(openDesk().card.id);
}

describe("a photo", () => {
  it("is kept under its hash, then written down with its time and size", async () => {
    const store = await opened();
    const taking = takePicture(new Blob(), "s1", "now", async () => {
      const at = photos();
      expect(at).toEqual([]);
      return made();
    });
    expect(await taking).toBe("kept");
    expect(photos().map(({ at, body }) => [at, body])).toEqual([
      [
        new Date(NOW_MS).toISOString(),
        { about: "s1", sha256: SHA256, type: "image/jpeg", width: 1200, height: 1600 },
      ],
    ]);
    const held = await store.read(SHA256);
    expect(held && new Uint8Array(held.bytes)).toEqual(bytes);
  });

  it("that was not kept is not written down, and it is told why", async () => {
    const store = await opened();
    for (const [code, told] of [
      ["full", "full"],
      ["lost", "failed"],
      ["slow", "failed"],
    ] as const) {
      const keep = vi.spyOn(store, "keep").mockRejectedValueOnce(new NotSaved(code));
      expect(await takePicture(new Blob(), "s1", "now", made)).toBe(told);
      keep.mockRestore();
    }
    const unread = () => Promise.reject(new NoPicture("not read"));
    expect(await takePicture(new Blob(), "s1", "now", unread)).toBe("unread");
    expect(photos()).toEqual([]);
  });
});

describe("what there is to see of a photo", () => {
  const REFUSAL = { code: "too_large", message: "The picture is over 2 MiB.", remedy: "Take it again." };
  const said = (told: readonly ShownPicture[], n: number) => vi.waitFor(() => expect(told).toHaveLength(n));

  it("is the phone's own picture and how far it is on its way, until nobody looks", async () => {
    const store = await opened();
    await takePicture(new Blob(), "s1", "now", made);
    const told: ShownPicture[] = [];
    const stop = watchPicture(SHA256, (shown) => told.push(shown));
    await said(told, 1);
    await store.refuse(SHA256, REFUSAL);
    await said(told, 2);
    await store.markSent(SHA256, "e1");
    await said(told, 3);
    expect(told.map((shown) => shown.kind)).toEqual(["here", "refused", "sent"]);
    expect(told[1]).toMatchObject({ refusal: REFUSAL });
    const [url] = new Set(told.map((shown) => ("url" in shown ? shown.url : null)));
    const seen = await fetch(url ?? "");
    expect(new Uint8Array(await seen.arrayBuffer())).toEqual(bytes);
    stop();
    await store.forgetSent();
    await store.read(SHA256);
    expect(told).toHaveLength(3);
    await expect(fetch(url ?? "")).rejects.toThrow();
  });

  it("is the server's where another phone took it, and nothing where there is no server to ask", async () => {
    const told: ShownPicture[] = [];
    await opened();
    watchPicture(OTHER, (shown) => told.push(shown));
    await said(told, 1);
    await killApp();
    const server = new ModelServer();
    await openAtStart(browser(server.fetch).around);
    watchPicture(OTHER, (shown) => told.push(shown));
    await said(told, 2);
    expect(told).toEqual([{ kind: "nowhere" }, { kind: "server", url: `/api/v1/photos/${OTHER}` }]);
  });
});

describe("a picture's size", () => {
  it("keeps its shape with the longest side bounded, and is never made larger", () => {
    expect(fitted(4000, 3000, 1600)).toEqual({ width: 1600, height: 1200 });
    expect(fitted(3000, 4000, 1600)).toEqual({ width: 1200, height: 1600 });
    expect(fitted(800, 600, 1600)).toEqual({ width: 800, height: 600 });
    expect(fitted(9000, 2, 640)).toEqual({ width: 640, height: 1 });
  });
});
