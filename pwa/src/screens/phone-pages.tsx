// The pages about this phone: how it shows the app and keeps the book, and its pairing.
import { PairScreen } from "./pair.tsx";
import { PhoneScreen } from "./phone.tsx";

export function PhonePages({ pairing }: { pairing: boolean }) {
  return pairing ? <PairScreen /> : <PhoneScreen />;
}
