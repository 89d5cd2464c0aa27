// @vitest-environment happy-dom
import { describe, expect, it } from "vitest";
import { HELP_TOPICS } from "../../../pwa/src/app/words/help.ts";
import { HelpScreen } from "../../../pwa/src/screens/help.tsx";
import { query } from "../../../pwa/src/state/whereabouts.ts";
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
    expect(links).toEqual(HELP_TOPICS.map((topic) => `/help/${topic}`));
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
