import { afterEach, describe, expect, it, vi } from "vitest";
import { record } from "../../../pwa/src/state/actions.ts";
import { connection, remindersFail } from "../../../pwa/src/state/connection.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { openAtStart, syncState } from "../../../pwa/src/state/opening.ts";
import { pairPhone, unpairPhone } from "../../../pwa/src/state/pairing.ts";
import { servers } from "./pairing-server.ts";
import { browser, killApp } from "./surroundings.ts";

const synced = () =>
  vi.waitFor(() => expect(syncState.value?.complete_ms).toBeTypeOf("number"), { timeout: 4500 });

afterEach(killApp);

describe("unpairing", () => {
  it("is refused while anything is only on this phone, and then keeps the book here", async () => {
    const server = servers("fresh");
    server.who.empty = true;
    const { around } = browser(server.fetch);
    await openAtStart(around);
    await pairPhone("GOODCODE", "Ann's phone");
    await synced();
    await record("note", { text: "frost" });
    expect(await unpairPhone()).toEqual({ kind: "only_here", n: 1 });
    expect(server.who.signedIn).toBe(true);
    openDesk().sync?.ask("keeper");
    await vi.waitFor(() => expect(connection.value.kind).toBe("on_server"), { timeout: 5000 });
    remindersFail.value = true;
    expect(await unpairPhone()).toEqual({ kind: "unpaired" });
    expect(remindersFail.value).toBe(false);
    expect(server.who.signedIn).toBe(false);
    expect([openDesk().card.paired_ms, openDesk().sync, held.value.entries.size]).toEqual([null, null, 1]);
    expect(connection.value).toEqual({ kind: "on_server", complete_ms: null });
  });

  it("changes nothing where the server is away", async () => {
    const server = servers("fresh");
    server.who.empty = true;
    const { around } = browser(server.fetch);
    await openAtStart(around);
    await pairPhone("GOODCODE", "Ann's phone");
    await synced();
    expect(await unpairPhone({ ...around, ask: browser().around.ask })).toEqual({ kind: "unreachable" });
    expect(openDesk().sync).not.toBeNull();
    expect(openDesk().card.paired_ms).not.toBeNull();
  });
});
