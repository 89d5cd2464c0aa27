import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { FamiliesScreen } from "../screens/families.tsx";
import { Notice } from "../screens/parts/notice.tsx";
import { UpdatePrompt } from "../screens/parts/update-prompt.tsx";
import { RoomsScreen } from "../screens/rooms.tsx";
import { SetScreen } from "../screens/set.tsx";
import { Shell } from "../screens/shell.tsx";
import { WelcomeScreen } from "../screens/welcome.tsx";
import { desk } from "../state/desk.ts";
import { newerApp } from "../state/newer-app.ts";
import { storageFault } from "../state/opening.ts";
import { path, query } from "../state/whereabouts.ts";
import { attention } from "./words/attention.ts";
import { common } from "./words/common.ts";

/** The screen at a path. `bare`: it needs the room of the bottom bar. */
interface Place {
  readonly screen: ComponentChildren;
  readonly bare?: boolean;
}

function placeOf(at: string): Place {
  const [first, second] = at.split("/").slice(1);
  switch (first) {
    case "rooms":
      if (second === "set") return { screen: <SetScreen place={query.value.get("place")} /> };
      return { screen: <RoomsScreen /> };
    case "families":
      return { screen: <FamiliesScreen /> };
    default:
      return { screen: <WelcomeScreen /> };
  }
}

/** The whole app. Until a book lies open there is nothing to show but, if need be, why none can be opened. */
export function App() {
  if (!desk.value) return <Unopened />;
  const { screen, bare = false } = placeOf(path.value);
  return (
    <Shell path={path.value} bare={bare}>
      <NewerApp />
      {screen}
    </Shell>
  );
}

function Unopened() {
  const fault = storageFault.value;
  if (!fault) return null;
  const { what, remedy } = attention.storage[fault];
  return (
    <Notice tone="watch" live>
      <b>{what}</b> {remedy}
    </Notice>
  );
}

function NewerApp() {
  const [later, setLater] = useState(false);
  const newer = newerApp.value;
  if (!newer || (later && !newer.needed)) return null;
  return <UpdatePrompt words={common.update} onNow={newer.take} onLater={() => setLater(true)} />;
}
