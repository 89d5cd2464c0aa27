import type { ComponentChildren } from "preact";
import { later } from "../screens/later.tsx";
import { Page } from "../screens/page.tsx";
import { isWhole } from "../state/held.ts";
import { query } from "../state/whereabouts.ts";
import { HOME } from "./router.ts";
import { everywhere } from "./words/everywhere.ts";

const BirdPages = later(() => import("../screens/bird-pages.tsx").then((it) => it.BirdPages));
const BookScreen = later(() => import("../screens/book.tsx").then((it) => it.BookScreen));
const BreedingPages = later(() => import("../screens/breeding-pages.tsx").then((it) => it.BreedingPages));
const BroodPages = later(() => import("../screens/brood-pages.tsx").then((it) => it.BroodPages));
const FamiliesScreen = later(() => import("../screens/families.tsx").then((it) => it.FamiliesScreen));
const HelpScreen = later(() => import("../screens/help.tsx").then((it) => it.HelpScreen));
const PhonePages = later(() => import("../screens/phone-pages.tsx").then((it) => it.begin()));
const RoomPages = later(() => import("../screens/room-pages.tsx").then((it) => it.RoomPages));
const ServerPages = later(() => import("../screens/server-pages.tsx").then((it) => it.ServerPages));
const SetScreen = later(() => import("../screens/set.tsx").then((it) => it.SetScreen));
const SettingPages = later(() => import("../screens/setting-pages.tsx").then((it) => it.SettingPages));
const YardPages = later(() => import("../screens/yard-pages.tsx").then((it) => it.YardPages));
const LATER = [
  BirdPages,
  BookScreen,
  BreedingPages,
  BroodPages,
  FamiliesScreen,
  HelpScreen,
  PhonePages,
  RoomPages,
  SetScreen,
  SettingPages,
  YardPages,
];

/** The screen at each path that is not opened first; null where there is none. */
function screenAt(at: string): ComponentChildren {
  const [first, second, third] = at.split("/").slice(1);
  switch (first) {
    case "welcome":
      return <YardPages page="welcome" />;
    case "rooms":
      if (second === "set") {
        const asked = (name: string) => query.value.get(name);
        const about = { place: asked("place"), species: asked("species"), plan: asked("plan") };
        return <SetScreen key={query.value.toString()} {...about} />;
      }
      if (second === "plan" || second === "places") return <YardPages page={second} />;
      return second && (third === "air" || third === "gauge" || third === "power") ? (
        <RoomPages key={at} place={second} page={third} />
      ) : null;
    case "setting":
      return second &&
        (third === undefined || third === "weigh" || third === "hatching" || third === "meaning") ? (
        <SettingPages key={at} id={second} page={third ?? "story"} />
      ) : null;
    case "broods":
      return third === undefined || third === "move" ? (
        <BroodPages key={at} page={third ?? "place"} id={second ?? null} />
      ) : null;
    case "brood":
      return second && third === undefined ? <BroodPages key={at} page="batch" id={second} /> : null;
    case "bird":
      return second ? <BirdPages key={at} bird={second} /> : null;
    case "birds":
      return <BirdPages key={at} page={second} lot={third} />;
    case "eggs":
    case "holding":
    case "season":
      return <YardPages page={first} />;
    case "mark":
    case "again":
      return second ? <SettingPages key={at} id={second} page={first} /> : null;
    case "families":
      if (second === "kin") return <BreedingPages key={at} page="kin" bird={third ?? null} />;
      if (second === "keep" || second === "pens") return <BreedingPages page={second} bird={null} />;
      return second === undefined ? <FamiliesScreen /> : null;
    case "pairing":
    case "plan":
      return <BreedingPages key={at} page={first} bird={null} />;
    case "book":
      return isWhole.value ? <BookScreen /> : <Page headline={everywhere.opening} />;
    case "help":
      return <HelpScreen key={at} topic={second ?? null} />;
    case "pair":
      return <ServerPages page="pair" />;
    case "phone":
      if (second === undefined) return <PhonePages />;
      if (second === "ready") return <ServerPages page={second} />;
      if (second === "papers" || second === "tables") return <ServerPages page={second} />;
      return second === "calendar" || second === "devices" ? <ServerPages page={second} /> : null;
    default:
      return null;
  }
}

/** Every screen but the first ones: their paths cost the first script nothing. */
function Elsewhere({ at }: { at: string }) {
  return screenAt(at) ?? <NotFound />;
}

function NotFound() {
  const { title, remedy, go } = everywhere.notFound;
  return (
    <Page headline={title} under={remedy}>
      <div class="acts">
        <a class="press firm" href={HOME}>
          {go}
        </a>
      </div>
    </Page>
  );
}

/** `Elsewhere`, with its screens' scripts sent for. What fails now is fetched again when it is shown. */
export function begin() {
  for (const screen of LATER) screen.fetch().catch(() => undefined);
  return Elsewhere;
}
