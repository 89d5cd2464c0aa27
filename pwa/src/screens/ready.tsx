// Is this phone ready? Each thing it needs, what was found, and what to do.
import { useEffect, useState } from "preact/hooks";
import { ready as words } from "../app/words/ready.ts";
import { phone } from "../app/words/setup.ts";
import { type Check, checkPhone } from "../state/ready.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";

const MINUTE_MS = 60_000;

export function ReadyScreen() {
  const [checks, setChecks] = useState<readonly Check[] | null>(null);
  const look = () => {
    setChecks(null);
    void checkPhone().then(setChecks);
  };
  useEffect(look, []);
  const count = (state: Check["state"]) => checks?.filter((one) => one.state === state).length ?? 0;
  return (
    <Page headline={checks ? words.title(count("amiss"), count("open")) : phone.ready}>
      {!checks && <p role="status">{words.asking}</p>}
      {checks && (
        <ul class="rows">
          {checks.map((check) => (
            <CheckRow key={check.what} check={check} />
          ))}
        </ul>
      )}
      <div class="acts">
        <Press off={!checks} onPress={look}>
          {words.again}
        </Press>
        <a class="press plain" href="/phone">
          {words.toPhone}
        </a>
      </div>
      <Section title={words.address}>
        <p>{words.addressIs(globalThis.location.origin)}</p>
        <p>{words.addressStays}</p>
      </Section>
    </Page>
  );
}

function CheckRow({ check }: { check: Check }) {
  const { what, state, why, offset_ms } = check;
  const told = words.checks[what]?.[why];
  const minutes = Math.round(Math.abs(offset_ms ?? 0) / MINUTE_MS);
  return (
    <li class={state === "amiss" ? "due-row late" : "due-row"}>
      <span class="when">{words.states[state]}</span>
      <span class="body">
        <span class="what">{words.names[what]}</span>
        {state === "amiss" && minutes > 0 ? words.offset(minutes, (offset_ms ?? 0) > 0) : told?.told}
        {told?.todo && <span class="quiet"> {told.todo}</span>}
      </span>
    </li>
  );
}
