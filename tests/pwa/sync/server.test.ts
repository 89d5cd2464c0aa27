import { describe, expect, it } from "vitest";
import { serverAt } from "../../../pwa/src/sync/server.ts";
import { json, refusal } from "./model-server.ts";

const request = { method: "GET", path: "/api/v1/x", parse: (value: unknown) => value } as const;
const answering = (fetch_: () => Promise<Response>, limit_ms = 1000) =>
  serverAt(fetch_ as unknown as typeof fetch, () => 5, limit_ms)(request);

describe("what comes over the network", () => {
  it("is an answer only as JSON of our own", async () => {
    expect(await answering(async () => json(200, { a: 1 }))).toEqual({
      kind: "ok",
      value: { a: 1 },
      sent_ms: 5,
      got_ms: 5,
    });
  });

  it("is not ours when a hotspot shows its page with status 200", async () => {
    const page = async () =>
      new Response("<html>Welcome, please sign in</html>", { headers: { "Content-Type": "text/html" } });
    expect(await answering(page)).toEqual({ kind: "not_ours" });
  });

  it("is not ours when a gateway answers 502 in HTML, or JSON breaks off", async () => {
    const bad = async () =>
      new Response("<h1>502</h1>", { status: 502, headers: { "Content-Type": "text/html" } });
    const half = async () => new Response('{"a":', { headers: { "Content-Type": "application/json" } });
    expect(await answering(bad)).toEqual({ kind: "not_ours" });
    expect(await answering(half)).toEqual({ kind: "not_ours" });
    expect(await answering(async () => json(500, { detail: "?" }))).toEqual({ kind: "not_ours" });
  });

  it("is unreachable when the connection breaks, and slow when nothing comes in time", async () => {
    expect(await answering(() => Promise.reject(new TypeError("Failed to fetch")))).toEqual({
      kind: "unreachable",
      slow: false,
    });
    const hang: typeof fetch = (_, init) =>
      new Promise((_done, fail) => init?.signal?.addEventListener("abort", () => fail(init.signal?.reason)));
    expect(await serverAt(hang, () => 0, 5)(request)).toEqual({ kind: "unreachable", slow: true });
  });

  it("carries the server's refusal in its words, and how long to wait", async () => {
    expect(await answering(async () => refusal(429, "too_many", { "Retry-After": "7" }))).toEqual({
      kind: "refused",
      status: 429,
      refusal: { code: "too_many", message: "no: too_many", remedy: "try otherwise" },
      retry_after_ms: 7000,
    });
  });
});
