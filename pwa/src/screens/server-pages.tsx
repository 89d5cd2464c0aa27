// The pages whose every answer is the server's, or that are for beside it: the worker does not keep them.
import { asking } from "../app/words/asking.ts";
import { devices } from "../app/words/devices.ts";
import { tables } from "../app/words/tables.ts";
import { desk } from "../state/desk.ts";
import { CalendarScreen } from "./calendar.tsx";
import { DevicesScreen } from "./devices.tsx";
import { Page } from "./page.tsx";
import { PairScreen } from "./pair.tsx";
import { PapersScreen } from "./papers.tsx";
import { ReadyScreen } from "./ready.tsx";
import { RemindersSection } from "./reminders.tsx";
import { TablesScreen } from "./tables.tsx";

export function ServerPages({
  page,
}: {
  page: "calendar" | "devices" | "pair" | "papers" | "ready" | "reminders" | "tables";
}) {
  if (page === "reminders") return <RemindersSection />;
  if (page === "pair") return <PairScreen />;
  const card = desk.value?.card;
  if (!card) return null;
  if (page === "ready") return <ReadyScreen />;
  if (card.paired_ms === null) return <NotPaired />;
  if (page === "calendar") return <CalendarScreen />;
  if (page === "papers") return <PapersScreen />;
  if (card.role !== "keeper") return <Page headline={(page === "tables" ? tables : devices).onlyKeeper} />;
  return page === "tables" ? <TablesScreen /> : <DevicesScreen />;
}

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
