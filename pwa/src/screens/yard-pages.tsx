// The pages about the place itself, its eggs before they are set, and its seasons: looked at with time.
import { EggsScreen } from "./eggs.tsx";
import { HoldingScreen } from "./holding.tsx";
import { PlacesScreen } from "./places.tsx";
import { PlanScreen } from "./plan.tsx";
import { SeasonScreen } from "./season.tsx";
import { WelcomeScreen } from "./welcome.tsx";

const PAGES = {
  eggs: EggsScreen,
  holding: HoldingScreen,
  places: PlacesScreen,
  plan: PlanScreen,
  season: SeasonScreen,
  welcome: WelcomeScreen,
} as const;

export function YardPages({ page }: { page: keyof typeof PAGES }) {
  const Screen = PAGES[page];
  return <Screen />;
}
