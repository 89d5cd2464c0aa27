// The pages beside a setting's own: the water its eggs lose, how its hatch goes, and what the server makes of it.
import { HatchingScreen } from "./hatching.tsx";
import { MeaningScreen } from "./meaning.tsx";
import { WeighScreen } from "./weigh.tsx";

const PAGES = { weigh: WeighScreen, hatching: HatchingScreen, meaning: MeaningScreen } as const;

export type SettingPage = keyof typeof PAGES;

export function SettingPages({ id, page }: { id: string; page: SettingPage }) {
  const Screen = PAGES[page];
  return <Screen id={id} />;
}
