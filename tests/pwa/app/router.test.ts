// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { routeBy } from "../../../pwa/src/app/router.ts";
import { goTo, path, query } from "../../../pwa/src/state/whereabouts.ts";

(window as unknown as { happyDOM: { setURL(url: string): void } }).happyDOM.setURL("http://app.test/");
routeBy(window);

/** Whether the router took the click; nothing is left to the test's browser, which would fetch the page. */
let taken = false;
window.addEventListener("click", (event) => {
  taken = event.defaultPrevented;
  event.preventDefault();
});

function click(attributes: Record<string, string>, how: MouseEventInit = {}): boolean {
  const link = document.createElement("a");
  for (const [name, value] of Object.entries(attributes)) link.setAttribute(name, value);
  const word = document.createElement("b");
  link.append(word);
  document.body.append(link);
  word.dispatchEvent(new MouseEvent("click", { bubbles: true, cancelable: true, button: 0, ...how }));
  return taken;
}

beforeEach(() => {
  goTo("/due", "replace");
});

describe("the way to a screen", () => {
  it("opens at what is due", () => {
    goTo("/");
    expect(path.value).toBe("/due");
  });

  it("follows links inside the app without loading a page", () => {
    expect(click({ href: "/rooms/set?place=0199" })).toBe(true);
    expect([path.value, query.value.get("place"), location.pathname]).toEqual([
      "/rooms/set",
      "0199",
      "/rooms/set",
    ]);
  });

  it("leaves everything else to the browser", () => {
    const left = [
      click({ href: "https://elsewhere.example/rooms" }),
      click({ href: "/rooms", target: "_blank" }),
      click({ href: "/book.jsonl", download: "" }),
      click({ href: "/api/v1/papers/season/2026.pdf" }),
      click({ href: "/rooms" }, { ctrlKey: true }),
      click({ href: "/rooms" }, { button: 1 }),
      click({ href: "/due#late" }),
      click({}),
    ];
    expect(left).toEqual(left.map(() => false));
    expect(path.value).toBe("/due");
  });

  it("goes where an act leads, and can leave no step behind", () => {
    const steps = history.length;
    goTo("/rooms/set");
    expect(history.length).toBe(steps + 1);
    goTo("/setting/0199", "replace");
    expect([path.value, history.length]).toEqual(["/setting/0199", steps + 1]);
  });
});
