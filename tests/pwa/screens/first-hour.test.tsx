// @vitest-environment happy-dom
import { render } from "preact";
import { afterAll, describe, expect, it } from "vitest";
import { FirstHour } from "../../../pwa/src/screens/first-hour.tsx";
import { readyOffline } from "../../../pwa/src/state/newer-app.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { browser, killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

const headline = () => document.querySelector("h1")?.textContent;
const done = () => document.querySelector("header > p")?.textContent;
const ways = () => [...document.querySelectorAll("ol a")].map((one) => one.getAttribute("href"));

describe("what to do first", () => {
  it("begins with the place, on a phone that holds nothing", async () => {
    render(null, document.body);
    await killApp();
    await openAtStart(browser().around);
    show(<FirstHour />);
    await settle();
    expect(headline()).toBe("Name your place and an incubator");
    expect(done()).toBe("0 of 4 done, and 3 for whoever needs them");
    expect(document.querySelectorAll("ol li").length).toBe(7);
    expect(document.querySelector("ol .press.main")?.getAttribute("href")).toBe("/welcome");
    expect(ways()).toEqual([
      "/welcome",
      "/pair",
      "/phone/tables",
      "/phone/ready",
      "/rooms/set",
      "/phone/devices",
      "/phone",
    ]);
  });

  it("ticks what the book holds, and goes on to what is next", async () => {
    await holdingAt(3);
    show(<FirstHour />);
    await settle();
    expect(headline()).toBe("See that it works without signal");
    expect(done()).toBe("2 of 4 done, and 3 for whoever needs them");
    expect(ways()).not.toContain("/welcome");
    expect(ways()).not.toContain("/rooms/set");
    readyOffline.value = true;
    await settle();
    expect(headline()).toBe("All works on this phone alone; pair it once you have a server");
    expect(ways()).toContain("/pair");
  });
});
