import { effect } from "@preact/signals";
import { afterEach, expect, it, vi } from "vitest";
import { firstReading } from "../../../pwa/src/state/first-reading.ts";
import { held } from "../../../pwa/src/state/held.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { A_PAGE, IN_ALL, serverInTwo } from "./server-in-two.ts";
import { browser, killApp } from "./surroundings.ts";

afterEach(killApp);

it.each([
  ["is on its way until all of it is in memory", false, IN_ALL],
  ["is shown as far as it came where the server goes away", true, A_PAGE],
])("a book that is half here %s", async (_, away, shown) => {
  const server = serverInTwo(away);
  const seen: number[] = [];
  const stop = effect(() => {
    if (firstReading.value === null && held.value.n > 0) seen.push(held.value.n);
  });
  const { around } = browser(server.fetch);
  await openAtStart(around);
  await vi.waitFor(() => expect(firstReading.value).toBe(A_PAGE));
  server.goOn();
  await vi.waitFor(() => expect(firstReading.value).toBeNull());
  stop();
  expect(new Set(seen)).toEqual(new Set([shown]));
  await killApp();
  await openAtStart(around); // and later it is what this phone holds
  expect([firstReading.value, held.value.n]).toEqual([null, shown]);
});
