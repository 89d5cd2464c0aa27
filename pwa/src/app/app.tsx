import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { later } from "../screens/later.tsx";
import { Page } from "../screens/page.tsx";
import { Safe } from "../screens/safe.tsx";
import { AttentionNotices, Shell } from "../screens/shell.tsx";
import { TallyScreen } from "../screens/tally.tsx";
import { TALLIES } from "../screens/tally-plan.ts";
import { desk } from "../state/desk.ts";
import { firstReading, isNewBook } from "../state/first-reading.ts";
import { newerApp } from "../state/newer-app.ts";
import { storageFault } from "../state/opening.ts";
import { path } from "../state/whereabouts.ts";
import { everywhere } from "./words/everywhere.ts";

// Opening the book and counting eggs come first; the scripts of everything else follow.
const DueScreen = later(() => import("../screens/due.tsx").then((it) => it.DueScreen));
const Elsewhere = later(() => import("./elsewhere.tsx").then((it) => it.begin()));
const RoomsScreen = later(() => import("../screens/rooms.tsx").then((it) => it.RoomsScreen));
const NewerApp = later(() => import("./newer-app.tsx").then((it) => it.NewerApp));
const Unopened = later(() => import("../screens/unopened.tsx").then((it) => it.UnopenedScreen));
const LATER = [DueScreen, RoomsScreen, Elsewhere, NewerApp, AttentionNotices];

/** The screen at a path. `bare`: it needs the room of the bottom bar. */
interface Place {
  readonly screen: ComponentChildren;
  readonly bare?: boolean;
}

function placeOf(at: string): Place {
  const [first, second, third, fourth] = at.split("/").slice(1);
  if (first === "due" || (first === "rooms" && second === undefined)) {
    const came = firstReading.value;
    if (came !== null)
      return { screen: <Page headline={everywhere.opening} under={came && everywhere.came(came)} /> };
    if (first === "rooms") return { screen: <RoomsScreen /> };
    return { screen: isNewBook.value ? <Elsewhere at="/welcome" /> : <DueScreen /> };
  }
  const what = third === "tally" ? TALLIES.find((one) => one === fourth) : undefined;
  if (first === "setting" && second && what)
    return { screen: <TallyScreen key={at} id={second} what={what} />, bare: true };
  return { screen: <Elsewhere at={at} /> };
}

/** The whole app. Until a book lies open there is nothing to show but, if need be, why none can be opened. */
export function App() {
  const isOpen = desk.value !== null;
  useEffect(() => {
    // After the book, which is waited for. What fails now is fetched again when it is shown.
    if (isOpen) for (const screen of LATER) screen.fetch().catch(() => undefined);
  }, [isOpen]);
  if (!desk.value) return storageFault.value && <Unopened fault={storageFault.value} />;
  const { screen, bare = false } = placeOf(path.value);
  return (
    <Shell path={path.value} bare={bare}>
      {newerApp.value && <NewerApp />}
      <Safe at={path.value}>{screen}</Safe>
    </Shell>
  );
}
