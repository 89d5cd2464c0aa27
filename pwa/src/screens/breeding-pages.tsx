// The pages about breeding: pens, kinship, the pairing desk, young birds to keep, eggs to set. One script, fetched later.
import { query } from "../state/whereabouts.ts";
import { KinScreen } from "./kin.tsx";
import { KinBirdScreen } from "./kin-bird.tsx";
import { PairingScreen } from "./pairing.tsx";
import { PensScreen } from "./pens.tsx";
import { WishedScreen } from "./wished.tsx";
import { YoungKeptScreen } from "./young-kept.tsx";

const PAGES = { kin: KinScreen, keep: YoungKeptScreen, pairing: PairingScreen, plan: WishedScreen } as const;

export type BreedingPage = keyof typeof PAGES | "pens";

/** bird: whose forebears to show. */
export function BreedingPages({ page, bird }: { page: BreedingPage; bird: string | null }) {
  if (bird !== null) return <KinBirdScreen id={bird} />;
  if (page === "pens") {
    const asked = (name: string) => query.value.get(name);
    return <PensScreen key={query.value.toString()} family={asked("family")} birds={asked("birds")} />;
  }
  const Screen = PAGES[page];
  return <Screen />;
}
