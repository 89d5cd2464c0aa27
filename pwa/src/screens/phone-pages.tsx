// The pages about this phone: how it shows the app and keeps the book, its reminders, its pairing, what it lacks.
import { desk } from "../state/desk.ts";
import { renew, renewOnWake } from "../state/reminders.ts";
import { PairScreen } from "./pair.tsx";
import { PhoneScreen } from "./phone.tsx";
import { ReadyScreen } from "./ready.tsx";

function PhonePages({ page }: { page: "phone" | "pair" | "ready" }) {
  if (page === "phone") return <PhoneScreen />;
  return page === "pair" ? <PairScreen /> : desk.value && <ReadyScreen />;
}

/** The pages. They come after the book at each start; then the server hears again where this phone is reminded. */
export function begin() {
  renew().catch(() => undefined); // seen on the page, and tried again at the next start
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") renewOnWake().catch(() => undefined);
  });
  return PhonePages;
}
