// The pages beside a setting's own: the water its eggs lose, and how its hatch goes.
import { HatchingScreen } from "./hatching.tsx";
import { WeighScreen } from "./weigh.tsx";

const PAGES = { weigh: WeighScreen, hatching: HatchingScreen } as const;

export type SettingPage = keyof typeof PAGES;

export function SettingPages({ id, page }: { id: string; page: SettingPage }) {
  const Screen = PAGES[page];
  return <Screen id={id} />;
}
