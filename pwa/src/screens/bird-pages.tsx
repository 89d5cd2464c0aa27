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

/** page: what stands after /birds, or undefined for the list. bird: a bird's id, for its own page. */
export function BirdPages({ page, bird }: { page?: string | undefined; bird?: string }) {
  const asked = query.value;
  if (bird) return <BirdScreen key={bird} id={bird} />;
  switch (page) {
    case "choose":
      return <ChooseScreen key={asked.get("lot")} id={asked.get("lot")} />;
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
