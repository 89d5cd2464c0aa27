// What a stage is called on the screen. The stage codes of the book are never shown.
import { capital } from "./capital.ts";
import { type Region, termsOf } from "./region.ts";

export interface StageWords {
  /** After a number: "3 clear". */
  readonly after: string;
  /** On a button: "Clear". */
  readonly button: string;
  /** What one sees, in a few words. */
  readonly seen: string;
}

const stage = (after: string, seen: string, button = capital(after)): StageWords => ({ after, button, seen });

const STAGES: Readonly<Record<string, StageWords>> = {
  set: stage("in the machine", "not judged yet"),
  locked: stage("in the hatcher", "turning stopped", "Into the hatcher"),
  clear: stage("clear", "no veins, no dark spot"),
  blood_ring: stage("blood ring", "a red ring, no veins"),
  cracked: stage("cracked", "the shell is broken"),
  rotten: stage("rotten", "smells or weeps: out with care"),
  taken: stage("removed", "sold, given or eaten as eggs"),
  unaccounted: stage("missing", "not to be found"),
  unhatched: stage("did not hatch", "still closed after the hatch"),
  infertile: stage("infertile", "opened: no germ at all"),
  dead_early: stage("died early", "blood, eyes just showing", "Died early"),
  dead_mid: stage("died midway", "a small body, no feathers yet", "Died midway"),
  dead_late: stage("died late", "feathered, yolk outside", "Died late"),
  dead_internal_pip: stage("died pipped inside", "beak through into the air cell", "Pipped inside"),
  dead_external_pip: stage("died pipped outside", "a hole in the shell, not out", "Pipped outside"),
  hatched: stage("hatched", "out of the shell"),
  brooding: stage("in the brooder", "under heat", "To the brooder"),
  growing: stage("growing", "off heat", "Off heat"),
  flock: stage("kept", "joined the birds kept", "Kept"),
  died: stage("died", "after hatching"),
  culled: stage("culled", "put down"),
  parted: stage("sold or given", "left alive", "Sold or given"),
  live: stage("live", "veins and movement"),
  unsure: stage("not sure", "look again", "Not sure"),
  pipped: stage("pipped", "a hole or a star in the shell"),
};

/** The words of a stage, or of what a look saw (live, unsure, pipped). An unknown code reads as "other". */
export function stageWords(code: string, region: Region): StageWords {
  if (code === "quitter") return stage(termsOf(region).quitter, "a dark mass, no veins");
  return STAGES[code] ?? stage("other", "from a newer app");
}

/** Stage codes the words know, for the test that none is left out. */
export const WORDED_STAGES: readonly string[] = [...Object.keys(STAGES), "quitter"];
