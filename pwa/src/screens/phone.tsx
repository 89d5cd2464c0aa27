// This phone: what is only here, the server, how it looks, which hand, what is kept.
import { useState } from "preact/hooks";
import { devices } from "../app/words/devices.ts";
import { plural } from "../app/words/everywhere.ts";
import { start } from "../app/words/first-hour.ts";
import { help } from "../app/words/help.ts";
import { holding } from "../app/words/holding.ts";
import { papers } from "../app/words/papers.ts";
import { safety } from "../app/words/safety.ts";
import { phone as words } from "../app/words/setup.ts";
import { connection, onlyHere } from "../state/connection.ts";
import { copyOf } from "../state/copy.ts";
import { desk } from "../state/desk.ts";
import { held } from "../state/held.ts";
import { readyOffline } from "../state/newer-app.ts";
import { kept, otherBooks, room, surroundings } from "../state/opening.ts";
import { type UnpairingOutcome, unpairPhone } from "../state/pairing.ts";
import { standing } from "../state/standing.ts";
import { AttentionNotices } from "./attention.tsx";
import { later } from "./later.tsx";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { PhoneChoices } from "./phone-choices.tsx";
import { PhotoCopy } from "./photo-copy.tsx";
import { ReadCopy } from "./read-copy.tsx";
import { SaveCopy } from "./save-copy.tsx";
import { Section } from "./section.tsx";
import { clock, dayWords } from "./told-time.ts";

/** What to be reminded of is asked of the server and told to it. */
const Reminders = later(() => import("./server-pages.tsx").then((it) => it.ServerPages), true);

export function PhoneScreen() {
  const state = connection.value;
  const card = desk.value?.card;
  const headline =
    card && card.paired_ms === null
      ? words.title.alone
      : state.kind === "only_here" || state.kind === "saving"
        ? words.title.here(state.n)
        : words.title.server;
  return (
    <Page headline={headline} under={card?.demo ? words.demo : null}>
      {standing.value.places.size === 0 && (
        <a class="press main" href="/help/start">
          {start.title}
        </a>
      )}
      <Server />
      <Kept />
      <OtherBooks />
      <div class="acts">
        <a class="press plain" href="/phone/ready">
          {words.ready}
        </a>
        {card?.role === "keeper" && card.paired_ms !== null && (
          <a class="press plain" href="/phone/devices">
            {devices.link}
          </a>
        )}
        {card && card.paired_ms !== null && (
          <a class="press plain" href="/phone/papers">
            {papers.link}
          </a>
        )}
        <a class="press plain" href="/holding">
          {holding.link}
        </a>
      </div>
      <Reminders page="reminders" />
      <PhoneChoices />
      <Section title={words.alarm}>
        <p>{safety.alarm}</p>
        <p>{safety.hands}</p>
        <p>{safety.mains}</p>
        <p class="quiet">{safety.rule}</p>
        <div class="acts">
          <a class="press plain" href="/help">
            {help.link}
          </a>
          <a class="press plain" href="/help/start">
            {start.title}
          </a>
        </div>
      </Section>
    </Page>
  );
}

function Server() {
  useNow();
  const open = desk.value;
  const state = connection.value;
  if (!open) return null;
  const { card } = open;
  const aside = [...held.value.onlyHere.values()].filter((one) => one.aside !== null).length;
  const complete_ms = state.kind === "on_server" ? state.complete_ms : null;
  return (
    <Section title={words.connection}>
      {card.paired_ms === null ? (
        <p>{words.unpaired}</p>
      ) : (
        <>
          <p>
            {words.paired(words.roles[card.role], standing.value.keeper.holding || card.name || words.noName)}
          </p>
          {state.kind === "on_server" && (
            <p class="quiet">
              {complete_ms === null ? words.never : words.last(timeOf(complete_ms, open.zone()))}
            </p>
          )}
        </>
      )}
      {onlyHere.value.n > 0 && card.paired_ms !== null && (
        <p>{words.goesUp(plural(onlyHere.value.n, "entry", "entries"))}</p>
      )}
      {aside > 0 && <p>{words.aside(aside)}</p>}
      <AttentionNotices most={9} />
      <div class="acts">
        {open.sync && (
          <Press kind="plain" onPress={() => open.sync?.ask("keeper")}>
            {words.ask}
          </Press>
        )}
        <a class={card.paired_ms === null ? "press main" : "press plain"} href="/pair">
          {card.paired_ms === null ? words.pair : words.pairAgain}
        </a>
      </div>
      <Unpair />
    </Section>
  );
}

const timeOf = (at_ms: number, zone: string) => `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;

function Kept() {
  const promise = kept.value;
  const whole = readyOffline.value;
  return (
    <Section title={words.storage}>
      <p>{whole === null ? words.whole.never : whole ? words.whole.yes : words.whole.notYet}</p>
      <p>{promise === null ? words.unknownKept : promise ? words.kept : words.notKept}</p>
      {promise !== true && (
        <div class="acts">
          <Press kind="plain" onPress={() => desk.value?.askToKeep()}>
            {words.askKeep}
          </Press>
        </div>
      )}
      <Room />
      <SaveCopy />
      <ReadCopy />
      <PhotoCopy />
    </Section>
  );
}

function Room() {
  if (!room.value) return null;
  const { used_bytes, quota_bytes } = room.value;
  return <p class="quiet">{words.room(size(used_bytes), size(quota_bytes))}</p>;
}

/** "1.4 MB", "60 GB", by the phone's language. */
function size(bytes: number): string {
  const [unit, one] = bytes < 1e9 ? (["megabyte", 1e6] as const) : (["gigabyte", 1e9] as const);
  const form = {
    style: "unit",
    unit,
    unitDisplay: "short",
    maximumFractionDigits: bytes < 10 * one ? 1 : 0,
  } as const;
  return new Intl.NumberFormat(undefined, form).format(bytes / one);
}

/** Books that lie beside the open one: nothing of them flows anywhere, so they can be saved as a copy. */
function OtherBooks() {
  if (otherBooks.value.length === 0) return null;
  return (
    <Section title={words.others}>
      {otherBooks.value.map((card) => (
        <div key={card.id}>
          <p>{words.other(card.name)}</p>
          <SaveCopy of={() => copyOf(surroundings().bookOf(card.id), card.name, surroundings().now_ms())} />
        </div>
      ))}
    </Section>
  );
}

/** Not while anything is only here: with the phone it would be gone. */
function Unpair() {
  const [outcome, setOutcome] = useState<UnpairingOutcome | null>(null);
  if (desk.value?.card.paired_ms === null) return outcome && <p role="status">{words.unpairDone}</p>;
  return (
    <>
      <div class="acts">
        <Press kind="plain" onPress={() => void unpairPhone().then(setOutcome)}>
          {words.unpair}
        </Press>
      </div>
      {outcome && (
        <Notice tone="watch" live>
          {unpairingWords(outcome)}
        </Notice>
      )}
    </>
  );
}

function unpairingWords(outcome: UnpairingOutcome): string {
  if (outcome.kind === "only_here") return words.unpairFirst(outcome.n);
  if (outcome.kind === "refused") return `${outcome.refusal.message} ${outcome.refusal.remedy}`;
  return outcome.kind === "unpaired" ? words.unpairDone : words.unpairAway;
}
