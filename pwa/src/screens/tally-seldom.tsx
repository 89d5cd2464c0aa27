// What is seldom asked for, behind "something else".

import { tally } from "../app/words/tally.ts";
import { back, soFar, seldom as words } from "../app/words/tally-panels.ts";
import { choose, spoken } from "../state/choices.ts";
import { path } from "../state/whereabouts.ts";
import { Press } from "./parts/press.tsx";
import type { Counting } from "./tally-turn.ts";

export function TallySeldom({ what, shown, acts, open }: Counting) {
  const aloud = spoken.value === "yes";
  return (
    <>
      {shown && (
        <Press kind="plain" onPress={() => open("back")}>
          {back.ask}
        </Press>
      )}
      {shown && what !== "open" && (
        <Press kind="plain" onPress={() => open("again")}>
          {tally.again}
        </Press>
      )}
      <Press kind="plain" onPress={() => open("so-far")}>
        {soFar.ask}
      </Press>
      {what !== "hatch" && (
        <Press kind="plain" onPress={() => open("when")}>
          {tally.whenNow}
        </Press>
      )}
      <Press kind="plain" onPress={acts.say}>
        {words.sayNow}
      </Press>
      <Press
        kind="plain"
        role="switch"
        checked={aloud}
        onPress={() => choose("spoken", aloud ? "no" : "yes")}
      >
        {words.aloud}
      </Press>
      <a class="press plain" href={`/help/${what}?from=${path.value}`}>
        {words.howTo}
      </a>
    </>
  );
}
