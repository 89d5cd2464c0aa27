import { afterEach, describe, expect, it, vi } from "vitest";
import { canonical } from "../../../pwa/src/book/wire.ts";
import { record } from "../../../pwa/src/state/actions.ts";
import { attention, connection } from "../../../pwa/src/state/connection.ts";
import { copyOf } from "../../../pwa/src/state/copy.ts";
import { desk, openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import {
  heedTab,
  introduce,
  openAtStart,
  otherBooks,
  storageFault,
  syncState,
  wake,
} from "../../../pwa/src/state/opening.ts";
import { pairPhone } from "../../../pwa/src/state/pairing.ts";
import { NotSaved } from "../../../pwa/src/storage/not-saved.ts";
import { writer } from "../storage/entries-of.ts";
import { servers } from "./pairing-server.ts";
import { browser, killApp } from "./surroundings.ts";

const synced = () =>
  vi.waitFor(
    () => {
      expect(syncState.value?.complete_ms).toBeTypeOf("number");
      expect(connection.value.kind).toBe("on_server");
    },
    { timeout: 4500 },
  );

afterEach(killApp);

describe("the first start", () => {
  it("opens the holding of a server that knows this browser, and fills its book", async () => {
    const server = servers("demo-1", true);
    server.model.store(canonical(writer("import").entry()));
    await openAtStart(browser(server.fetch).around);
    expect(openDesk().card).toMatchObject({
      id: "demo-1",
      demo: true,
      device: "given-1",
      name: "Gorse Bank",
    });
    await synced();
    expect(held.value.entries.size).toBe(1);
  });

  it("begins a book of its own where no server answers or it does not know this browser", async () => {
    for (const { around } of [browser(), browser(servers("farm").fetch)]) {
      await openAtStart(around);
      expect(openDesk().card).toMatchObject({ paired_ms: null, demo: false });
      expect(openDesk().sync).toBeNull();
      const { device } = await record("note", { text: "frost" });
      expect(device).toBe(openDesk().card.device);
    }
  });

  it("says so where the browser can keep nothing", async () => {
    const { around } = browser();
    const broken = {
      ...around,
      shelf: { ...around.shelf, open: () => Promise.reject(new NotSaved("refused")) },
    };
    await openAtStart(broken);
    expect([desk.value, storageFault.value]).toEqual([null, "refused"]);
    await wake(around); // looked at again, and it works now
    expect([openDesk().card.paired_ms, storageFault.value]).toEqual([null, null]);
  });
});

describe("a later start", () => {
  it("shows the book at once, without any server", async () => {
    const { around } = browser();
    await openAtStart(around);
    await record("note", { text: "frost" });
    const { id } = openDesk().card;
    await killApp();
    await openAtStart(around);
    expect(openDesk().card.id).toBe(id);
    expect([...held.value.entries.values()].map((one) => one.entry.body.text)).toEqual(["frost"]);
  });

  it("goes on after its own newest id, although the clock was set back by years", async () => {
    const { around, clock } = browser();
    clock.now_ms += 5 * 365 * 86_400_000;
    await openAtStart(around);
    const before = await record("note", { text: "from the future" });
    clock.now_ms -= 5 * 365 * 86_400_000;
    await killApp();
    await openAtStart(around);
    const after = await record("note", { text: "now" });
    expect(after.id > before.id).toBe(true);
  });
});

describe("pairing", () => {
  it("lets an empty server take over the book begun here, which goes up", async () => {
    const server = servers("fresh");
    server.who.empty = true;
    const { around } = browser(server.fetch);
    await openAtStart(around);
    const own = openDesk().card.id;
    const { id } = await record("note", { text: "before pairing" });
    expect(await pairPhone(" GOODCODE ", "Ann's phone")).toEqual({ kind: "paired" });
    expect(server.offered).toEqual([own]);
    expect(openDesk().card).toMatchObject({ id: own, device: "given-1", role: "keeper" });
    expect(openDesk().card.earlier_devices).toHaveLength(1);
    await synced();
    expect(server.model.rows.map((row) => row.id)).toEqual([id]);
    expect(otherBooks.value).toEqual([]);
  });

  it("opens a server's own book empty beside a book begun here, and never mixes them", async () => {
    const server = servers("farm");
    server.model.store(canonical(writer("import").entry()));
    const { around } = browser(server.fetch);
    await openAtStart(around);
    const own = openDesk().card.id;
    await record("note", { text: "before pairing" });
    await pairPhone("GOODCODE", "Ann's phone");
    await synced();
    expect(openDesk().card.id).toBe("farm");
    expect(held.value.entries.size).toBe(1);
    expect(server.model.rows).toHaveLength(1);
    expect(attention.value).toContainEqual({ kind: "other_book", holding: own });
    const copy = await copyOf(around.bookOf(own), "", around.now_ms());
    expect(copy.text).toContain("before pairing");
  });

  it("forgets a book begun here that nobody wrote in", async () => {
    const { around } = browser(servers("farm").fetch);
    await openAtStart(around);
    await pairPhone("GOODCODE", "Ann's phone");
    expect(otherBooks.value).toEqual([]);
  });

  it("never offers a demo's holding", async () => {
    const demo = servers("demo-1", true);
    const { around } = browser(demo.fetch);
    await openAtStart(around);
    const real = servers("fresh");
    real.who.empty = true;
    const elsewhere = { ...around, ask: browser(real.fetch).around.ask };
    await pairPhone("GOODCODE", "Ann's phone", elsewhere);
    expect(real.offered).toEqual([undefined]);
    expect(openDesk().card.id).toBe("fresh");
    await synced();
    expect(real.model.rows).toEqual([]);
  });

  it("tells a wrong code in the server's words and changes nothing", async () => {
    const { around } = browser(servers("farm").fetch);
    await openAtStart(around);
    const { id } = openDesk().card;
    expect(await pairPhone("BADCODE1", "Ann's phone")).toMatchObject({
      kind: "refused",
      refusal: { code: "wrong_code" },
    });
    expect(openDesk().card.id).toBe(id);
  });

  it("again after a revoked pairing brings the same entries with the same ids", async () => {
    const server = servers("fresh");
    server.who.empty = true;
    const { around } = browser(server.fetch);
    await openAtStart(around);
    await pairPhone("GOODCODE", "Ann's phone");
    await synced();
    server.who.signedIn = false;
    const { id, device } = await record("note", { text: "written while revoked" });
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(attention.value).toEqual([{ kind: "unpaired" }]), { timeout: 5000 });
    server.who.device = "given-2";
    server.who.empty = false;
    await pairPhone("GOODCODE", "Ann's phone");
    await synced();
    expect(server.model.rows.map((row) => row.id)).toEqual([id]);
    expect([device, openDesk().card.device]).toEqual(["given-1", "given-2"]);
    expect(openDesk().card.earlier_devices).toContain("given-1");
  });
});

it("says that a reader's phone keeps what is written on it to itself", async () => {
  const { around } = browser(servers("demo-1", true).fetch);
  await openAtStart(around);
  await synced();
  const { card } = openDesk();
  desk.value = { ...openDesk(), card: { ...card, role: "reader" } };
  await record("note", { text: "frost" });
  expect(attention.value).toEqual([{ kind: "role" }]);
});

it("keeps the open book on the screen when the browser cannot open another one", async () => {
  const { around } = browser();
  await openAtStart(around);
  const { id } = openDesk().card;
  const bookOf = (holding: string) => {
    const book = around.bookOf(holding);
    book.probe = () => Promise.reject(new NotSaved("full"));
    return book;
  };
  const server = servers("demo-1", true);
  await introduce({ ...around, bookOf, ask: browser(server.fetch).around.ask });
  expect([openDesk().card.id, storageFault.value]).toEqual([id, "full"]);
});

describe("another holding at the same address", () => {
  it("opens its own book, and gets nothing of the one that was open", async () => {
    const first = servers("demo-1", true);
    const second = servers("demo-2", true);
    second.model.epoch = "of-its-own"; // random on a real server
    let now = first;
    const { around } = browser((input, init) => now.fetch(input, init));
    await openAtStart(around);
    await synced();
    await record("note", { text: "for the first" });
    now = second;
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(openDesk().card.id).toBe("demo-2"), { timeout: 5000 });
    await synced();
    expect(second.model.rows).toEqual([]);
    expect(held.value.entries.size).toBe(0);
  });

  it("is found by a book that is not paired yet when the app is looked at again", async () => {
    const server = servers("farm");
    const { around } = browser(server.fetch);
    await openAtStart(around);
    server.who.signedIn = true;
    await wake(around);
    await vi.waitFor(() => expect(openDesk().card.id).toBe("farm"));
    await introduce(around);
    expect(openDesk().card.id).toBe("farm");
  });
});

describe("the other tabs", () => {
  it("are told what was written, and read it when told", async () => {
    const { around, told } = browser();
    await openAtStart(around);
    const { id } = await record("note", { text: "frost" });
    const { storage, card } = openDesk();
    expect(told).toContainEqual({ kind: "rows", holding: card.id, ids: [id] });
    const foreign = writer("phone-b").entry();
    const append = storage.append.bind(storage);
    const stopped = storage.watch(() => undefined);
    await append([foreign]);
    stopped();
    await heedTab(around, { kind: "rows", holding: card.id, ids: [foreign.id] });
    expect(held.value.entries.has(foreign.id)).toBe(true);
    await heedTab(around, { kind: "reset", holding: card.id });
    await heedTab(around, { kind: "rows", holding: "another", ids: ["x"] });
    expect(held.value.entries.size).toBe(2);
  });
});

it("tells the keeper of a server that answers with a sign-in page", async () => {
  const server = servers("demo-1", true);
  let hotspot = false;
  const { around } = browser((input, init) =>
    hotspot
      ? Promise.resolve(new Response("<html>", { headers: { "Content-Type": "text/html" } }))
      : server.fetch(input, init),
  );
  await openAtStart(around);
  await synced();
  hotspot = true;
  openDesk().sync?.ask("keeper");
  await vi.waitFor(() => expect(syncState.value?.fault).toEqual({ code: "not_ours" }));
  expect(attention.value).toEqual([{ kind: "not_ours" }]);
});

it("tells the keeper of a clock that is far from the server's, and of none that is near", async () => {
  const server = servers("demo-1", true);
  const { around, clock } = browser(server.fetch);
  await openAtStart(around);
  for (const behind_ms of [0, -60_000, 3 * 86_400_000, -400 * 86_400_000]) {
    clock.now_ms = server.model.server_ms - behind_ms;
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(syncState.value?.skew_ms).toBe(behind_ms), { timeout: 4500 });
    const expected = Math.abs(behind_ms) > 120_000 ? [{ kind: "clock", behind_ms }] : [];
    expect(attention.value).toEqual(expected);
  }
});
