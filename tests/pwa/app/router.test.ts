// @vitest-environment happy-dom
import { beforeEach, describe, expect, it } from "vitest";
import { innerLink, routeBy } from "../../../pwa/src/app/router.ts";
import { goTo, path, query } from "../../../pwa/src/state/whereabouts.ts";

(window as unknown as { happyDOM: { setURL(url: string): void } }).happyDOM.setURL("http://app.test/");
routeBy(window);

function linkWith(attributes: Record<string, string>): Element {
  const link = document.createElement("a");
  for (const [name, value] of Object.entries(attributes)) link.setAttribute(name, value);
  const word = document.createElement("b");
  link.append(word);
  document.body.append(link);
  return word;
}

/** Where a click on a word of such a link leads, without the click being made. */
function leads(attributes: Record<string, string>, how: Partial<MouseEvent> = {}): string | null {
  const event = { button: 0, defaultPrevented: false, target: linkWith(attributes), ...how };
  return innerLink(event as MouseEvent, location);
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
    const click = new MouseEvent("click", { bubbles: true, cancelable: true, button: 0 });
    linkWith({ href: "/rooms/set?place=0199" }).dispatchEvent(click);
    expect(click.defaultPrevented).toBe(true);
    expect([path.value, query.value.get("place"), location.pathname]).toEqual([
      "/rooms/set",
      "0199",
      "/rooms/set",
    ]);
  });

  it("leaves everything else to the browser", () => {
    const left = [
      leads({ href: "https://elsewhere.example/rooms" }),
      leads({ href: "/rooms", target: "_blank" }),
      leads({ href: "/book.jsonl", download: "" }),
      leads({ href: "/api/v1/papers/season/2026.pdf" }),
      leads({ href: "/rooms" }, { ctrlKey: true }),
      leads({ href: "/rooms" }, { button: 1 }),
      leads({ href: "/rooms" }, { defaultPrevented: true }),
      leads({ href: "/due#late" }),
      leads({}),
    ];
    expect(left).toEqual(left.map(() => null));
    expect(leads({ href: "/rooms" })).toBe("/rooms");
  });

  it("goes where an act leads, and can leave no step behind", () => {
    const steps = history.length;
    goTo("/rooms/set");
    expect(history.length).toBe(steps + 1);
    goTo("/setting/0199", "replace");
    expect([path.value, history.length]).toEqual(["/setting/0199", steps + 1]);
  });
});
