// The pages of one machine: its air, its gauges, a power cut.
import { placeMissing } from "../app/words/air.ts";
import { standing } from "../state/standing.ts";
import { AirScreen } from "./air.tsx";
import { GaugeScreen } from "./gauge.tsx";
import { Page } from "./page.tsx";
import { PowerScreen } from "./power.tsx";

const PAGES = { air: AirScreen, gauge: GaugeScreen, power: PowerScreen } as const;

export type RoomPage = keyof typeof PAGES;

export function RoomPages({ place, page }: { place: string; page: RoomPage }) {
  const { places, rootOf } = standing.value;
  const root = rootOf.get(place) ?? place;
  if (!places.has(root)) return <Page headline={placeMissing} />;
  const Screen = PAGES[page];
  return <Screen place={root} />;
}
