/** What was published about air that strayed and power that was away; where two sources differ both are kept. */
import guidance from "@tables/guidance.json";
import { sourceTitle } from "./sources.ts";
import type { Range } from "./species.ts";

/** One published sentence with the title of where it was read. */
export interface Published {
  readonly words: string;
  readonly source: string;
  readonly status: string;
}

export type Topic = "hot" | "cold" | "power_cut" | "power_cut_forced" | "power_cut_still";

/** The sentences about a topic. */
export function publishedOn(topic: Topic): Published[] {
  return guidance[topic].map(({ value, source, status }) => ({
    words: value,
    source: sourceTitle(source) ?? source,
    status,
  }));
}

/** Days after a power cut between which the eggs are candled again. */
export const CANDLE_AFTER_CUT = guidance.candle_after_cut.value as unknown as Range;
