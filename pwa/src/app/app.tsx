import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { later } from "../screens/later.tsx";
import { Page } from "../screens/page.tsx";
import { Notice } from "../screens/parts/notice.tsx";
import { Shell } from "../screens/shell.tsx";
import { TallyScreen } from "../screens/tally.tsx";
import { TALLIES } from "../screens/tally-plan.ts";
import { desk } from "../state/desk.ts";
import { isWhole } from "../state/held.ts";
import { newerApp } from "../state/newer-app.ts";
import { storageFault, syncState } from "../state/opening.ts";
import { standing } from "../state/standing.ts";
import { path, query } from "../state/whereabouts.ts";
import { HOME } from "./router.ts";
import { attention } from "./words/attention.ts";
import { everywhere } from "./words/everywhere.ts";

// Opening the book and counting eggs come first; the scripts of these screens follow.
const BookScreen = later(() => import("../screens/book.tsx").then((it) => it.BookScreen));
const DueScreen = later(() => import("../screens/due.tsx").then((it) => it.DueScreen));
const FamiliesScreen = later(() => import("../screens/families.tsx").then((it) => it.FamiliesScreen));
const HelpScreen = later(() => import("../screens/help.tsx").then((it) => it.HelpScreen));
const PhonePages = later(() => import("../screens/phone-pages.tsx").then((it) => it.begin()));
const RoomPages = later(() => import("../screens/room-pages.tsx").then((it) => it.RoomPages));
const RoomsScreen = later(() => import("../screens/rooms.tsx").then((it) => it.RoomsScreen));
const SetScreen = later(() => import("../screens/set.tsx").then((it) => it.SetScreen));
const SettingPages = later(() => import("../screens/setting-pages.tsx").then((it) => it.SettingPages));
const YardPages = later(() => import("../screens/yard-pages.tsx").then((it) => it.YardPages));
const NewerApp = later(() => import("./newer-app.tsx").then((it) => it.NewerApp));
const Rescue = later(() => import("../screens/rescue.tsx").then((it) => it.Rescue));
const LATER = [
  NewerApp,
  BookScreen,
  DueScreen,
  FamiliesScreen,
  HelpScreen,
  PhonePages,
  RoomPages,
  RoomsScreen,
  SetScreen,
  SettingPages,
  YardPages,
];

/** The screen at a path. `bare`: it needs the room of the bottom bar. */
interface Place {
  readonly screen: ComponentChildren;
  readonly bare?: boolean;
}

function placeOf(at: string): Place | null {
  const [first, second, third, fourth] = at.split("/").slice(1);
  switch (first) {
    case "due":
      if (!isNewBook()) return { screen: <DueScreen /> };
      return {
        screen: isFirstPull() ? <Page headline={everywhere.opening} /> : <YardPages page="welcome" />,
      };
    case "welcome":
      return { screen: <YardPages page="welcome" /> };
    case "rooms":
      if (second === "set") {
        const asked = { place: query.value.get("place"), species: query.value.get("species") };
        return { screen: <SetScreen key={query.value.toString()} {...asked} /> };
      }
      if (second === "plan" || second === "places") return { screen: <YardPages page={second} /> };
      if (second === undefined) return { screen: <RoomsScreen /> };
      return third === "air" || third === "gauge" || third === "power"
        ? { screen: <RoomPages key={at} place={second} page={third} /> }
        : null;
    case "setting": {
      if (second === undefined) return null;
      if (third === undefined || third === "weigh" || third === "hatching" || third === "meaning")
        return { screen: <SettingPages key={at} id={second} page={third ?? "story"} /> };
      const what = third === "tally" ? TALLIES.find((one) => one === fourth) : undefined;
      return what ? { screen: <TallyScreen key={at} id={second} what={what} />, bare: true } : null;
    }
    case "eggs":
    case "holding":
      return { screen: <YardPages page={first} /> };
    case "mark":
    case "again":
      return second ? { screen: <SettingPages key={at} id={second} page={first} /> } : null;
    case "families":
      return { screen: <FamiliesScreen /> };
    case "book":
      return { screen: isWhole.value ? <BookScreen /> : <Page headline={everywhere.opening} /> };
    case "season":
      return { screen: <YardPages page="season" /> };
    case "help":
      return { screen: <HelpScreen key={at} topic={second ?? null} /> };
    case "phone":
    case "pair":
      return { screen: <PhonePages pairing={first === "pair"} /> };
    default:
      return null;
  }
}

/** Nothing set up yet, by this phone or by one that shares the book. */
function isNewBook(): boolean {
  const { heads, places, settings } = standing.value;
  return !heads.keeper?.length && places.size === 0 && settings.size === 0;
}

/** The server's book is on its way to this phone for the first time; asking to set one up would be wrong. */
function isFirstPull(): boolean {
  const state = syncState.value;
  return state !== null && state.complete_ms === null && state.fault === null;
}

/** The whole app. Until a book lies open there is nothing to show but, if need be, why none can be opened. */
export function App() {
  const isOpen = desk.value !== null;
  useEffect(() => {
    // After the book, which is waited for. What fails now is fetched again when it is shown.
    if (isOpen) for (const screen of LATER) screen.fetch().catch(() => undefined);
  }, [isOpen]);
  if (!desk.value) return <Unopened />;
  const { screen, bare = false } = placeOf(path.value) ?? { screen: <NotFound /> };
  return (
    <Shell path={path.value} bare={bare}>
      {newerApp.value && <NewerApp />}
      {screen}
    </Shell>
  );
}

function NotFound() {
  const { title, remedy, go } = everywhere.notFound;
  return (
    <Page headline={title} under={remedy}>
      <a class="press" href={HOME}>
        {go}
      </a>
    </Page>
  );
}

function Unopened() {
  const fault = storageFault.value;
  if (!fault) return null;
  const { what, remedy } = attention.storage[fault];
  return (
    <main class="page">
      <Notice tone="watch" live>
        <b>{what}</b> {remedy}
      </Notice>
      <Rescue />
    </main>
  );
}
