// What opens beside the counting, one panel at a time; one script for all of them, fetched while the first egg is held.
import type { ComponentType } from "preact";
import { TallyAgain } from "./tally-again.tsx";
import { TallyBack } from "./tally-back.tsx";
import { TallyCautions } from "./tally-cautions.tsx";
import { TallyEnd } from "./tally-end.tsx";
import { TallyGuide } from "./tally-guide.tsx";
import { TallySeldom } from "./tally-seldom.tsx";
import { TallySoFar } from "./tally-so-far.tsx";
import type { Counting, Panel } from "./tally-turn.ts";
import { TallyTyped } from "./tally-typed.tsx";
import { TallyWhen } from "./tally-when.tsx";

type Shown = Exclude<Panel, "keys"> | "end" | "seldom" | "cautions";

const PANELS: Readonly<Record<Shown, ComponentType<Counting>>> = {
  again: TallyAgain,
  back: TallyBack,
  cautions: TallyCautions,
  end: TallyEnd,
  guide: TallyGuide,
  seldom: TallySeldom,
  "so-far": TallySoFar,
  typed: TallyTyped,
  when: TallyWhen,
};

export function TallyPanel({ panel, ...counting }: Counting & { readonly panel: Shown }) {
  const Shown = PANELS[panel];
  return <Shown {...counting} />;
}
