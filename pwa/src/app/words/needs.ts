// Room, feed and water: for these birds now, and from the next change on.
import { type Region, termsOf } from "./region.ts";

export const needs = {
  title: "Room, feed and water",
  for: (who: string) => `For ${who}.`,
  today: "Today",
  from: (on: string) => `From ${on}`,
  what: "What",
  floor: "Floor",
  feeder: "Feeder edge",
  drinker: (region: Region) =>
    `${termsOf(region).drinker.replace(/^./, (first) => first.toUpperCase())} edge`,
  feed: "Feed a day",
  water: "Water a day",
  unknown: "not read",
  between: (low: string, high: string, unit: string) =>
    low === high ? `${low} ${unit}` : `${low} to ${high} ${unit}`,
  change: (on: string) => `The next change of room is on ${on}.`,
  untilThen: (amount: string) => `They eat ${amount} until then.`,
  noChange: "No further change of room was read.",
  buy: "Feed to buy for four weeks",
  buyFor: (amount: string) => `${amount}, layers and old breeds.`,
  buyMeat: (amount: string) => `Fast growing meat birds: ${amount}.`,
  source: (title: string, kinds: string) => `${title} (${kinds})`,
  differ: (sources: string) => `The sources differ: ${sources}.`,
  from1: (sources: string, pct: string) =>
    `One source: ${sources}. Shown ${pct} % either way for waste and breed; that is our judgement.`,
  unreadFeed: "No source was read for what these eat in the next four weeks.",
  ageless: "Nobody wrote when they hatched: no figure goes without an age.",
  stages: (region: Region) =>
    ({ starter: termsOf(region).starter, grower: "grower" }) as Readonly<Record<string, string>>,
  protein: (stage: string, low: number, high: number) =>
    `Now: ${stage}, ${low === high ? low : `${low} to ${high}`} % protein.`,
  turkeys: (male: number, female: number) =>
    `Medium white turkeys of this age needed ${Math.round(male)} (males) and ${Math.round(female)} % (Potter and Shelton 1980).`,
  changeFeed: (from: string, to: string) =>
    from === to
      ? `Another feed from ${from}, a little more each day.`
      : `Another feed between ${from} and ${to}, a little more each day.`,
  layer: (weeks: number) =>
    `No layer feed before about ${weeks} weeks or the first egg: its calcium harms young kidneys.`,
  medicated: "Medicated feed is made for one species: read the label, ask your vet.",
  hot: (low: number, high: number) => `Above 32 °C they drink ${low} to ${high} times as much.`,
  grit: (low: number, high: number) => `Grit, if they eat more than mash or crumble: ${low} to ${high} mm.`,
  swim: "No swimming until they are feathered.",
  why: {
    about: "room, feed and water",
    formula:
      "Birds times what the sources say for their age. Where they differ the range holds all; of one source alone for feed or water our judgement widens it.",
    ofKind: (unit: string, kind: string) => `${unit}, ${kind}`,
    value: (value: string, unit: string, title: string) => `${value} ${unit}, ${title}`,
  },
} as const;
