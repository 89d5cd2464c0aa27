// Every text the keeper may see: complete for each stage and kind, and free of the book's own codes.

import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { told } from "../../../pwa/src/app/words/book.ts";
import { chores, choreWords, WORDED_CHORES } from "../../../pwa/src/app/words/chores.ts";

import { listed } from "../../../pwa/src/app/words/everywhere.ts";
import { start } from "../../../pwa/src/app/words/first-hour.ts";
import { hatching } from "../../../pwa/src/app/words/hatching.ts";
import { help, moreSteps, steps } from "../../../pwa/src/app/words/help.ts";

import { losses } from "../../../pwa/src/app/words/losses.ts";
import { marks } from "../../../pwa/src/app/words/marks.ts";
import { meaning } from "../../../pwa/src/app/words/meaning.ts";
import { needs } from "../../../pwa/src/app/words/needs.ts";
import { inRegion, REGIONS, regionOf, termsOf } from "../../../pwa/src/app/words/region.ts";
import { reminders } from "../../../pwa/src/app/words/reminders.ts";
import { setting } from "../../../pwa/src/app/words/rooms.ts";
import { season } from "../../../pwa/src/app/words/season.ts";
import { setDates } from "../../../pwa/src/app/words/set.ts";
import { speciesTerms, young } from "../../../pwa/src/app/words/species.ts";
import { stageWords } from "../../../pwa/src/app/words/stages.ts";
import { tally } from "../../../pwa/src/app/words/tally.ts";
import * as panels from "../../../pwa/src/app/words/tally-panels.ts";
import { timeLine } from "../../../pwa/src/app/words/time-line.ts";
import schema from "../../../pwa/src/book/bodies.schema.json";
import { FAMILY_WORDS, HATCH_WORDS, type OwnWords, ownWords } from "../../../pwa/src/book/own-words.ts";
import { STAGES } from "../../../pwa/src/book/stages.ts";
import { KEYS, OTHER_KEYS, TALLIES } from "../../../pwa/src/screens/tally-plan.ts";

/** Words that are codes, or that are asked with a region, a species or webs: called below with what they are asked with. */
const BY_HAND = ["capital", "chores", "marks", "needs", "region", "species", "stages"];
const others = Object.entries(import.meta.glob("../../../pwa/src/app/words/*.ts", { eager: true })).filter(
  ([path]) => !BY_HAND.some((name) => path.endsWith(`/${name}.ts`)),
);
const { pattern, key, risk, webName, ways, ring: rings, again, ...otherMarks } = marks;
const { next, ...otherRings } = rings;
const { websClosedOf, websSaveOf, ...otherAgain } = again;
const { drinker, stages: feedStages, ...otherNeeds } = needs;
const groups = {
  others,
  otherMarks,
  otherRings,
  otherAgain,
  patterns: [
    pattern.told(["LO", "RI"]),
    pattern.next(["RO"]),
    websClosedOf(["LO", "RI"]),
    websSaveOf(2, ["LI"]),
    key.labelOf(["LI"]),
    key.hint,
    pattern.noneHint,
    risk.own("LO", "Rowan"),
    risk.unmarked("RI"),
    risk.other("RO", "Hazel"),
    webName("LI"),
    ways.ring("band"),
    next("blue", "left"),
  ],
  chores,
  choreWords: WORDED_CHORES.map(choreWords),
  otherNeeds,
  ofRegions: [drinker("us"), Object.values(feedStages("uk"))],
};
const tables = (name: string) =>
  JSON.parse(
    readFileSync(new URL(`../../../server/broodline/trade/tables/${name}.json`, import.meta.url), "utf8"),
  );
const REGION_CODES = REGIONS.map((region) => region.value);

/** Stands for a number, a name, a list of names, a mean and a keeper's own words, whichever a text asks for. */
function anything(n: number, own: OwnWords) {
  const text = String(n);
  const asText = { charAt: () => text, replaceAll: () => text, toFixed: () => text, toLowerCase: () => text };
  return Object.assign([text], asText, own, { mean: n, notKnown: { n, of: n + 1 } });
}

/** All texts below a value; functions are called with what stands for anything. */
function textsIn(value: unknown, own = ownWords(null)): string[] {
  if (typeof value === "string") return [value];
  if (typeof value === "function") {
    const made: unknown = (value as (...given: unknown[]) => unknown)(
      ...Array.from({ length: value.length }, (_, at) => anything(at + 2, own)),
    );
    return textsIn(made, own);
  }
  return typeof value === "object" && value !== null
    ? Object.values(value).flatMap((one) => textsIn(one, own))
    : [];
}

describe("words", () => {
  it("are the keeper's own where chosen, the trade's where not", () => {
    for (const family of FAMILY_WORDS) expect(ownWords({ family }).family.one).toBe(family);
    for (const hatch of HATCH_WORDS) expect(ownWords({ hatch }).hatch.one).toBe(hatch);
    expect(ownWords({ family: "clan" })).toEqual(ownWords(null));
    expect(ownWords({ family: "line" }).family.many).toBe("lines");
  });

  it("say neither family nor setting to a keeper who says line and hatch", () => {
    const own = ownWords({ family: "line", hatch: "hatch" });
    const shown = textsIn(
      {
        season,
        help,
        steps,
        moreSteps,
        start,
        timeLine,
        panels,
        tally,
        setting,
        setDates,
        meaning,
        hatching,
      },
      own,
    );
    expect(shown.filter((text) => /\b(?:famil(?:y|ies)|settings?)\b/i.test(text))).toEqual([]);
    expect(shown.filter((text) => /\blines?\b/i.test(text)).length).toBeGreaterThan(8);
  });

  it("never show the book's own codes", () => {
    const stages = REGION_CODES.flatMap((region) =>
      STAGES.flatMap((stage) => textsIn(stageWords(stage, region))),
    );
    const shown = [...textsIn(groups), ...stages];
    const codes = /\b(?:parted|unaccounted|lots?|taken|standing|moved|undefined|null|NaN)\b|_/i;
    // "taken back" and "taken in" are plain English for what the keeper or the app did, not a stage.
    expect(others.length).toBeGreaterThan(45);
    expect(shown.filter((text) => codes.test(text.replace(/\btaken (?:back|in)\b/gi, "")))).toEqual([]);
    expect(shown.length).toBeGreaterThan(2000);
    expect(shown.filter((text) => text !== text.trim())).toEqual([]);
  });

  it("name every stage and every answer in every region", () => {
    for (const region of REGION_CODES) {
      for (const stage of STAGES)
        expect([stage, stageWords(stage, region).after]).not.toEqual([stage, "other"]);
      const ids = TALLIES.flatMap((what) => [...KEYS[what], ...OTHER_KEYS[what]].map((key) => key.id));
      for (const id of ids) {
        const known = Object.hasOwn(tally.buttons, id) || stageWords(id, region).after !== "other";
        expect([id, known]).toEqual([id, true]);
      }
    }
  });

  it("tell what every kind of entry did", () => {
    const kinds = Object.keys(schema.kinds);
    const own = ["keeper", "place", "family", "set", "locked", "looked", "moved", "counted"];
    expect(kinds.filter((kind) => !own.includes(kind) && !Object.hasOwn(told.others, kind))).toEqual([]);
  });

  it("name every cause of a loss that the book knows", () => {
    const named = Object.keys(losses.causes).filter((cause) => cause !== "");
    expect([...named, "unknown"].sort()).toEqual([...tables("stages").causes].sort());
  });

  it("name every task of a brood and every reminder that the server knows", () => {
    expect([...WORDED_CHORES].sort()).toEqual(Object.keys(tables("brood_tasks").tasks).sort());
    const offered = [...Object.keys(reminders.tasks), ...Object.keys(reminders.broodTasks)];
    expect(offered.sort()).toEqual(Object.keys(tables("reminders").tasks).sort());
  });

  it("put rings and drinkers of the tables into the region's words", () => {
    expect(inRegion("Clean the drinkers, look at each ring. Rings during spring.", "us")).toBe(
      "Clean the waterers, look at each band. Bands during spring.",
    );
    expect(inRegion("Raise drinkers", "uk")).toBe("Raise drinkers");
  });

  it("follow the region", () => {
    expect(stageWords("quitter", "uk").after).toBe("dead in shell");
    expect(stageWords("quitter", "us").after).toBe("quitter");
    expect(termsOf(regionOf("us"))).toMatchObject({
      ring: "band",
      drinker: "waterer",
      starter: "starter",
      cock: "rooster",
    });
    expect(termsOf(regionOf("uk"))).toMatchObject({
      ring: "ring",
      drinker: "drinker",
      starter: "chick crumb",
      cock: "cock",
    });
    expect(termsOf(regionOf("au"))).toMatchObject({ ring: "ring", starter: "starter", cock: "rooster" });
    expect(regionOf("mars")).toBe("elsewhere");
  });

  it("follow the species", () => {
    expect(young(1, "goose")).toBe("1 gosling");
    expect(young(3, "turkey")).toBe("3 poults");
    expect(young(2, "guinea")).toBe("2 keets");
    expect(young(5, "phoenix")).toBe("5 chicks");
    expect(speciesTerms("red_junglefowl").name).toBe("Red junglefowl");
  });

  it("list names as one says them", () => {
    expect([
      listed([]),
      listed(["Rowan"]),
      listed(["Rowan", "Hazel"]),
      listed(["Rowan", "Hazel", "Alder"]),
    ]).toEqual(["", "Rowan", "Rowan and Hazel", "Rowan, Hazel and Alder"]);
  });
});
