// A setting and the pages beside it; the marks of one of its batches or of a bird, and a later look at them.
import { HatchingScreen } from "./hatching.tsx";
import { MarkScreen } from "./mark.tsx";
import { MarkAgainScreen } from "./mark-again.tsx";
import { MeaningScreen } from "./meaning.tsx";
import { SettingScreen } from "./setting.tsx";
import { WeighScreen } from "./weigh.tsx";

const PAGES = {
  story: SettingScreen,
  weigh: WeighScreen,
  hatching: HatchingScreen,
  meaning: MeaningScreen,
  mark: MarkScreen,
  again: MarkAgainScreen,
} as const;

export type SettingPage = keyof typeof PAGES;

export function SettingPages({ id, page }: { id: string; page: SettingPage }) {
  const Screen = PAGES[page];
  return <Screen id={id} />;
}
