// The pages about birds that are known by themselves and those that are chosen: weights, comings and goings, treatments.
import { query } from "../state/whereabouts.ts";
import { BirdScreen } from "./bird.tsx";
import { BirdsScreen } from "./birds.tsx";
import { CameScreen } from "./came.tsx";
import { ChooseScreen } from "./choose.tsx";
import { GrowthScreen } from "./growth.tsx";
import { OrdersScreen } from "./orders.tsx";
import { TrafficScreen } from "./traffic.tsx";
import { TreatmentsScreen } from "./treatments.tsx";
import { WeighBirdsScreen } from "./weigh-birds.tsx";

interface BirdPagesProps {
  /** What stands after /birds; undefined for the list. */
  readonly page?: string | undefined;
  /** The batch to choose from. */
  readonly lot?: string | undefined;
  /** A bird's id, for its own page. */
  readonly bird?: string;
}

export function BirdPages({ page, lot, bird }: BirdPagesProps) {
  const asked = query.value;
  if (bird) return <BirdScreen key={bird} id={bird} />;
  switch (page) {
    case "choose":
      return <ChooseScreen key={lot} id={lot ?? null} />;
    case "weigh":
      return <WeighBirdsScreen key={asked.get("who")} asked={asked.get("who")} />;
    case "growth":
      return <GrowthScreen />;
    case "came":
      return <CameScreen />;
    case "treatments":
      return <TreatmentsScreen key={asked.get("bird")} bird={asked.get("bird")} />;
    case "orders":
      return <OrdersScreen />;
    case "record":
      return <TrafficScreen />;
    default:
      return <BirdsScreen />;
  }
}
