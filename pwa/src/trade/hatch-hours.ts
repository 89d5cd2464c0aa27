/** How long the steps of a hatch take and may take, and what a forecast rests on, each figure with where it was read. */
import agenda from "@tables/agenda.json";
import candling from "@tables/candling.json";
import hatch from "@tables/hatch.json";
import type { Sourced } from "./storage.ts";

// JSON knows lists and texts alone: the server's tests hold every cell to this shape.
const { pull_after_hatch, pull_at_latest } = agenda.hours as unknown as Readonly<
  Record<"pull_after_hatch" | "pull_at_latest", Sourced<number>>
>;

/** Hours from the first chick out to feed and water, as aimed at. */
export const FEED_BY_H = pull_after_hatch;
/** Hours after which the chicks have waited too long. */
export const FEED_AT_LATEST_H = pull_at_latest;
/** Hours from the first hole to the chick, from and to. */
export const PIP_TO_OUT_H = candling.pip_to_out_h as unknown as Sourced<readonly [low: number, high: number]>;
/** The same of ducks and geese, at most. */
export const WATERFOWL_PIP_TO_OUT_H = candling.pip_to_out_waterfowl_h as Sourced<number>;

/** Hours from the first chick to the last that a forecast by the species alone allows for. */
export const USUAL_SPREAD_H = hatch.usual_spread as Sourced<number>;
/** As many hatches of the machine count as much as the species' usual time. */
export const SPECIES_WEIGHT = hatch.species_weight as Sourced<number>;
/** How many hatches of the machine a forecast looks back at. */
export const HATCHES_USED = hatch.hatches_used as Sourced<number>;
