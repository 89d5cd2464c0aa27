// The pages about next season: kinship, the pairing desk, young birds to keep, eggs to set. One script, fetched later.
import { KinScreen } from "./kin.tsx";
import { KinBirdScreen } from "./kin-bird.tsx";
import { PairingScreen } from "./pairing.tsx";
import { WishedScreen } from "./wished.tsx";
import { YoungKeptScreen } from "./young-kept.tsx";

const PAGES = { kin: KinScreen, keep: YoungKeptScreen, pairing: PairingScreen, plan: WishedScreen } as const;

export type BreedingPage = keyof typeof PAGES;

/** bird: whose forebears to show. */
export function BreedingPages({ page, bird }: { page: BreedingPage; bird: string | null }) {
  if (bird !== null) return <KinBirdScreen id={bird} />;
  const Screen = PAGES[page];
  return <Screen />;
}
