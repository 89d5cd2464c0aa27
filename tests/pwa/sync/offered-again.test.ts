import { describe, expect, it } from "vitest";
import { ModelServer, refusal } from "./model-server.ts";
import { phone } from "./phone.ts";

describe("what a server refused", () => {
  it("is offered again when the server's version is another one, once each, and then arrives", async () => {
    const server = new ModelServer();
    const a = phone("a", 1);
    const entries = [a.entry(), a.entry(), a.entry()];
    await a.storage.append(entries);
    const odd = entries[1]?.id ?? "";
    let offered = 0;
    const picky: typeof fetch = async (input, init) => {
      if (!String(init?.body ?? "").includes(odd)) return server.fetch(input, init);
      offered += 1;
      return server.version === "1.2.0" ? server.fetch(input, init) : refusal(400, "envelope");
    };
    const aside = async () =>
      (await a.storage.all()).filter((one) => one.aside !== null).map((one) => one.id);
    const offeredAt = async (version: string | null, mayPush = true) => {
      const before = offered;
      server.version = version;
      expect(await a.sync(picky, mayPush)).toMatchObject({ complete: true, fault: null });
      return offered - before;
    };
    expect(await offeredAt(null)).toBeGreaterThan(0);
    expect([await offeredAt("1.0.0"), await offeredAt("1.0.0"), await aside()]).toEqual([1, 0, [odd]]);
    expect([await offeredAt("1.1.0"), await offeredAt("1.1.0"), await aside()]).toEqual([1, 0, [odd]]);
    expect([await offeredAt("1.2.0", false), await offeredAt(null), await aside()]).toEqual([0, 0, [odd]]); // a reader's
    expect([await offeredAt("1.2.0"), await offeredAt("1.2.0"), await aside()]).toEqual([1, 0, []]);
    expect([...server.texts().keys()].sort()).toEqual(entries.map((one) => one.id));
    expect((await a.storage.all()).every((one) => one.position !== null)).toBe(true);
  });
});
