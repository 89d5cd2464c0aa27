// @vitest-environment happy-dom
import { render } from "preact";
import { act } from "preact/test-utils";
import { afterEach, expect, it, vi } from "vitest";
import { App } from "../../../pwa/src/app/app.tsx";
import { everywhere } from "../../../pwa/src/app/words/everywhere.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { path } from "../../../pwa/src/state/whereabouts.ts";
import { A_PAGE, serverInTwo } from "../state/server-in-two.ts";
import { browser, killApp } from "../state/surroundings.ts";

const headline = () => document.querySelector("h1")?.textContent;

afterEach(async () => {
  render(null, document.body);
  await killApp();
});

it.each(["/due", "/rooms"])(
  "%s says nothing of a book that is half here but how much of it came",
  async (at) => {
    const server = serverInTwo(false);
    path.value = at;
    await openAtStart(browser(server.fetch).around);
    await act(() => render(<App />, document.body));
    await vi.waitFor(() => expect(document.body.textContent).toContain(everywhere.came(A_PAGE)));
    expect(headline()).toBe(everywhere.opening);
    server.goOn();
    await vi.waitFor(() => expect(headline()).not.toBe(everywhere.opening));
    expect(document.body.textContent).not.toContain(everywhere.came(A_PAGE));
  },
);
