// Reminders on this phone: turned on and off, what of, when, and whether they work.
import { useEffect, useState } from "preact/hooks";
import { calendar } from "../app/words/calendar.ts";
import { reminders as words } from "../app/words/reminders.ts";
import { desk } from "../state/desk.ts";
import {
  type Browser,
  look,
  type Outcome,
  type Reminders,
  reminders,
  thisBrowser,
  tryOut,
  turnOff,
  turnOn,
  type Wishes,
  wish,
} from "../state/reminders.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { ReminderWishes } from "./reminder-wishes.tsx";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

export function RemindersSection() {
  const [browser] = useState(thisBrowser);
  const paired = desk.value ? desk.value.card.paired_ms !== null : false;
  return (
    <Section title={words.title}>
      <p>{words.why}</p>
      {!paired ? <p>{words.unpaired}</p> : browser ? <Switchboard browser={browser} /> : <NoPush />}
      {paired && (
        <div class="acts">
          <a class="press plain" href="/phone/calendar">
            {calendar.link}
          </a>
        </div>
      )}
    </Section>
  );
}

/** A browser may throw at any of this, most of all where it lost its worker. */
const failed = (): Outcome => ({ kind: "failed" });

function NoPush() {
  const apple = /iPhone|iPad|Macintosh/.test(globalThis.navigator.userAgent);
  return <p>{apple ? words.install : words.noPush}</p>;
}

function Switchboard({ browser }: { browser: Browser }) {
  const [outcome, setOutcome] = useState<Outcome | null>(null);
  const [busy, setBusy] = useState(false);
  useEffect(() => void look(browser).catch(() => undefined), [browser]);
  const act = async (doing: Promise<Outcome>) => {
    setBusy(true);
    setOutcome(null);
    setOutcome(await doing.catch(failed));
    setBusy(false);
  };
  const state = reminders.value;
  const on = state?.on === true && !state.lost;
  const save = (wishes: Wishes) => void wish(browser, wishes).catch(failed).then(setOutcome);
  return (
    <>
      {state?.wishes && <State state={state} />}
      {busy && <p role="status">{words.waiting}</p>}
      {outcome && outcome.kind !== "done" && (
        <Notice tone={outcome.kind === "tried" ? "plain" : "watch"} live>
          {outcomeWords(outcome)}
        </Notice>
      )}
      <div class="acts">
        {on ? (
          <>
            <Press off={busy} onPress={() => void act(tryOut())}>
              {words.try}
            </Press>
            <Press kind="plain" off={busy} onPress={() => void act(turnOff(browser))}>
              {words.off}
            </Press>
          </>
        ) : (
          <Press off={busy} onPress={() => void act(turnOn(browser, state?.wishes ?? null))}>
            {state?.wishes ? words.again : words.on}
          </Press>
        )}
      </div>
      {on && state.wishes && <ReminderWishes wishes={state.wishes} onChange={save} />}
    </>
  );
}

function State({ state }: { state: Reminders }) {
  const { last } = state;
  const zone = desk.value?.zone() ?? "UTC";
  const at_ms = last ? Date.parse(last.at) : Number.NaN;
  const broken = state.working === false || !state.on;
  return (
    <div role="status">
      <p>
        <b>
          {state.lost ? words.lost : broken ? words.broken : state.working ? words.working : words.untried}
        </b>
      </p>
      {broken && last && <p>{last.words}</p>}
      {!broken && Number.isFinite(at_ms) && (
        <p class="quiet">{words.last(`${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`)}</p>
      )}
    </div>
  );
}

function outcomeWords(outcome: Outcome): string {
  switch (outcome.kind) {
    case "refused":
      return outcome.words;
    case "tried":
      return words.tried;
    case "done":
      return "";
    default:
      return words[outcome.kind];
  }
}
