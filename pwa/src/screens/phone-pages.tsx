// The pages about this phone: how it shows the app and keeps the book, its reminders and calendar, and its pairing.
import { asking } from "../app/words/asking.ts";
import { devices } from "../app/words/devices.ts";
import { desk } from "../state/desk.ts";
import { renew } from "../state/reminders.ts";
import { CalendarScreen } from "./calendar.tsx";
import { DevicesScreen } from "./devices.tsx";
import { Page } from "./page.tsx";
import { PairScreen } from "./pair.tsx";
import { PhoneScreen } from "./phone.tsx";
import { ReadyScreen } from "./ready.tsx";

export type PhonePage = "phone" | "pair" | "ready" | "calendar" | "devices";

function PhonePages({ page }: { page: PhonePage }) {
  if (page === "phone") return <PhoneScreen />;
  if (page === "pair") return <PairScreen />;
  if (page === "ready") return desk.value && <ReadyScreen />;
  if (desk.value?.card.paired_ms === null) return <NotPaired />;
  if (page === "calendar") return desk.value && <CalendarScreen />;
  return desk.value?.card.role === "keeper" ? <DevicesScreen /> : <Page headline={devices.onlyKeeper} />;
}

/** For pages whose answers are the server's. */
function NotPaired() {
  return (
    <Page headline={asking.unpaired}>
      <div class="acts">
        <a class="press main" href="/pair">
          {asking.pair}
        </a>
      </div>
    </Page>
  );
}

/** The pages. They come after the book at each start; then the server hears again where this phone is reminded. */
export function begin() {
  renew().catch(() => undefined); // seen on the page, and tried again at the next start
  return PhonePages;
}
