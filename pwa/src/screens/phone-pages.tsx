// The pages about this phone: how it shows the app and keeps the book, its reminders, its pairing, what it lacks.
import { renew, renewOnWake } from "../state/reminders.ts";
import { PhoneScreen } from "./phone.tsx";

/** The page. It comes after the book at each start; then the server hears again where this phone is reminded. */
export function begin() {
  renew().catch(() => undefined); // seen on the page, and tried again at the next start
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") renewOnWake().catch(() => undefined);
  });
  return PhoneScreen;
}
