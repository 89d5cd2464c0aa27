// The pages about this phone: how it shows the app and keeps the book, its reminders, and its pairing.
import { renew } from "../state/reminders.ts";
import { PairScreen } from "./pair.tsx";
import { PhoneScreen } from "./phone.tsx";

function PhonePages({ pairing }: { pairing: boolean }) {
  return pairing ? <PairScreen /> : <PhoneScreen />;
}

/** The pages. They come after the book at each start; then the server hears again where this phone is reminded. */
export function begin() {
  renew().catch(() => undefined); // seen on the page, and tried again at the next start
  return PhonePages;
}
