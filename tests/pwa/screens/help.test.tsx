// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { HELP_TOPICS } from "../../../pwa/src/app/words/help.ts";
import { ownWords } from "../../../pwa/src/book/own-words.ts";
import { HelpScreen } from "../../../pwa/src/screens/help.tsx";
import { lookThrough } from "../../../pwa/src/screens/help-search.ts";
import { query } from "../../../pwa/src/state/whereabouts.ts";
import { rateOf } from "../../../pwa/src/trade/proportions.ts";
import { buttonNamed, settle, show } from "./holding.ts";

const text = () => document.body.textContent ?? "";

async function page(topic: string | null, from = ""): Promise<void> {
  query.value = new URLSearchParams(from ? { from } : {});
  show(<HelpScreen key={`${topic} ${from}`} topic={topic} />);
  await settle();
}

describe("how-to pages", () => {
  it("have steps, cautions and who to follow, and are all listed", async () => {
    for (const topic of HELP_TOPICS) {
      await page(topic);
      expect([topic, document.querySelectorAll("ol li").length > 5]).toEqual([topic, true]);
      expect([topic, text().includes("Follow local rules and your vet.")]).toEqual([topic, true]);
    }
    await page(null);
    const links = [...document.querySelectorAll("a")].map((link) => link.getAttribute("href"));
    expect(links).toEqual(["/help/start", ...HELP_TOPICS.map((topic) => `/help/${topic}`)]);
    expect(text()).toContain("Wet hands and mains power");
  });

  it("name the source of each figure they give", async () => {
    await page("candle");
    expect(text()).toContain("have it back within 20 minutes");
    expect(text()).toContain("Tray back in the machine within20 min");
    expect(text()).toContain("Source: Common practice; no published source.");
    await page("hatch");
    expect(text()).toContain("commonly used, not yet checked against its source");
    await page("open");
    expect(text()).toContain("Wait until 24 hours after the last chick.");
  });

  it("lead back to the count one came from, and nowhere else", async () => {
    await page("candle", "/setting/a/tally/candle");
    expect(buttonNamed("Back to the count").getAttribute("href")).toBe("/setting/a/tally/candle");
    await page("candle", "https://elsewhere.example/");
    expect(text()).not.toContain("Back to the count");
  });
});

describe("the handbook looked through", () => {
  const own = ownWords({ family: "line", hatch: "hatch" });
  const pages = (asked: string) => lookThrough(asked, own, "uk").found.map(({ topic }) => topic);
  const answers = (asked: string) => {
    const { found, whole } = lookThrough(asked, own, "uk");
    return whole ? found.map(({ topic, lines }) => `${topic}: ${lines.join(" ")}`) : [];
  };

  it("finds every page by a word of it, whatever the case, by a word's beginning", () => {
    expect(pages("PEBBLES")).toEqual(["brood"]);
    expect(pages("punch")).toEqual(["mark"]);
    expect(pages("overlap")).toEqual(["intervals"]);
    expect(pages("lid pipped")[0]).toBe("hatch");
    expect(pages("turn")).toContain("lockdown");
    for (const topic of HELP_TOPICS) expect(pages("the")).toContain(topic);
  });

  it("shows the lines that answer, with all words in one line first, and in the keeper's own words", () => {
    const [first] = lookThrough("red ring", own, "uk").found;
    expect(first?.topic).toBe("candle");
    expect(first?.lines.every((line) => /red ring/i.test(line))).toBe(true);
    expect(lookThrough("basket", own, "uk").found[0]?.lines[0]).toContain("Give each line a basket");
    for (const { lines } of lookThrough("eggs", own, "uk").found) expect(lines.length).toBeLessThanOrEqual(3);
  });

  it.each([
    ["weak chick", /^weak: Weak chick: dry and warm/],
    ["splay leg", /^weak: Splay legs/],
    ["sticky", /^late: Sticky chicks/],
    ["late hatch", /^late: Late hatch: a cool machine/],
    ["power cut", /^late: Power cut: lid shut/],
    ["humidity", /Raise the humidity/],
    ["clears", /^open: .*Open the clears too/],
    ["blood ring", /^candle: .*blood ring/i],
    ["pipped but not out", /pipped the lid stays shut/],
    ["heat lamp", /^brood: Heat lamp: on a chain/],
    ["inbreeding", /^kin: Inbreeding \(F\) is the chance/],
    ["ring", /^mark: .*Rings: look every week/],
    ["red comb", /^kin: Cock or hen: a comb that turns red/],
    ["feather peck", /^weak: Feather pecking/],
    ["vet", /^weak: .*your vet the same day/],
    ["what is lockdown", /^lockdown: /],
    ["dead in shell", /^late: Dead in shell/],
    ["wry neck", /^weak: Wry neck/],
    ["navel", /^weak: Navel open or wet/],
  ])("answers %s", (asked, line) => {
    expect(answers(asked)).toContainEqual(expect.stringMatching(line));
  });

  it.each([
    ["candleing", "candling", "candle"],
    ["candeling", "candling", "candle"],
    ["incubater", "incubator", "late"],
    ["incubators", "incubator", "late"],
    ["lockdwon", "lockdown", "lockdown"],
    ["humiditty", "humidity", "lockdown"],
    ["spradle", "spraddle", "weak"],
    ["hatched", "hatch", "hatch"],
    ["feathers pecked", "feather peck", "weak"],
  ])("takes %s for %s", (asked, meant, topic) => {
    expect(pages(asked)).toContain(topic);
    expect(pages(asked)).toEqual(pages(meant));
  });

  it("says that no page has it all where one has some, and how a slip was read", () => {
    const mixed = lookThrough("navel zebra", own, "uk");
    expect([mixed.whole, mixed.found.map(({ topic }) => topic)]).toEqual([false, ["weak"]]);
    expect(lookThrough("pebles", own, "uk").read).toBe("pebbles");
    expect(lookThrough("pebble", own, "uk").read).toBeNull();
    expect(lookThrough("zq", own, "uk").found).toEqual([]);
  });

  it("says what to try where nothing is found, and nothing before a word is typed", async () => {
    expect(pages(" ,. ")).toEqual([]);
    await page(null);
    expect(text()).not.toContain("On one page");
    const field = document.querySelector("input");
    if (!field) throw new Error("no field to look for words");
    const type = async (words: string) => {
      field.value = words;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      await settle();
    };
    await type("pebbles");
    expect(document.querySelector('[role="status"]')?.textContent).toBe("On one page");
    expect(document.querySelector(".rows a")?.getAttribute("href")).toBe("/help/brood");
    await type("pebles zebra");
    expect(document.querySelector('[role="status"]')?.textContent).toContain(
      "No page has it all; one has some",
    );
    expect(text()).toContain("Read as: pebbles zebra");
    await type("zebra");
    expect(text()).toContain("Nothing of that here.");
    expect(text()).toContain("For a sick or dying bird ask your vet today.");
  });

  it("explains bars by one that is right", async () => {
    await page("intervals");
    const { low, high } = rateOf(18, 20); // Wilson 1927, as in tests/vectors/proportions.json
    const told = `${Math.round((low ?? 0) * 100)} to ${Math.round((high ?? 0) * 100)} %`;
    expect(text()).toContain(`“18 of 20, ${told}”`);
  });
});
