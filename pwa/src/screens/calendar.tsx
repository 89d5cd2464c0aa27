// What is due in the keeper's own calendar: an address to subscribe to, and single events to take along.
import { useId, useState } from "preact/hooks";
import { calendar as words } from "../app/words/calendar.ts";
import { type Feed, newCalendar, readCalendar, stopCalendar } from "../state/calendar.ts";
import { useAsked } from "./asked.ts";
import { AskedPage, whenThere } from "./asked-page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";

const SHOWN = 12;

export function CalendarScreen() {
  const asked = useAsked<Feed>(readCalendar);
  const { value: feed, busy, act } = asked;
  const headline = feed ? words.title(feed.events.length) : words.link;
  return (
    <AskedPage headline={headline} under={words.under} asked={asked} ask={readCalendar}>
      {feed && (
        <Section title={words.feed}>
          <p role="status">
            <b>{feed.on ? words.isOn : words.ended}</b>
          </p>
          {feed.on && (
            <p class="quiet">{feed.read_ms === null ? words.never : words.read(whenThere(feed.read_ms))}</p>
          )}
          {feed.path && <Address path={feed.path} />}
          <div class="acts">
            <Press kind={feed.on ? "plain" : "main"} off={busy} onPress={() => void act(newCalendar())}>
              {feed.on ? words.anew : words.on}
            </Press>
            {feed.on && (
              <Press kind="plain" off={busy} onPress={() => void act(stopCalendar())}>
                {words.off}
              </Press>
            )}
          </div>
          <p class="quiet small">{words.alarms}</p>
          <p class="quiet small">{words.reach}</p>
        </Section>
      )}
      {feed && feed.events.length > 0 && <OneByOne events={feed.events} />}
    </AskedPage>
  );
}

/** Shown once: the server keeps only what it can be known by. */
function Address({ path }: { path: string }) {
  const id = useId();
  const [copied, setCopied] = useState<boolean | null>(null);
  const { origin, host } = globalThis.location;
  const copy = () =>
    globalThis.navigator.clipboard.writeText(origin + path).then(
      () => setCopied(true),
      () => setCopied(false),
    );
  return (
    <Notice>
      <div class="field">
        <label for={id}>{words.address}</label>
        <input id={id} readOnly value={origin + path} onFocus={(event) => event.currentTarget.select()} />
      </div>
      <p>{words.once}</p>
      {copied !== null && <p role="status">{copied ? words.copied : words.noCopy}</p>}
      <div class="acts">
        <Press onPress={() => void copy()}>{words.copy}</Press>
        <a class="press plain" href={`webcal://${host}${path}`} target="_self">
          {words.subscribe}
        </a>
      </div>
    </Notice>
  );
}

function OneByOne({ events }: { events: Feed["events"] }) {
  return (
    <Section title={words.single}>
      <ul class="rows">
        {events.slice(0, SHOWN).map((event) => (
          <li key={event.path} class="due-row">
            <span class="when">{whenThere(event.at_ms)}</span>
            <span class="body">
              <span class="what">{event.title}</span>
              <span class="quiet">{event.words}</span>
            </span>
            <a
              class="press plain"
              href={event.path}
              download="broodline.ics"
              aria-label={words.take(event.title, whenThere(event.at_ms))}
            >
              {words.taking}
            </a>
          </li>
        ))}
      </ul>
      {events.length > SHOWN && <p class="quiet small">{words.more(events.length - SHOWN)}</p>}
    </Section>
  );
}
