// This phone: what is only here, the server, how it looks, which hand, what is kept.
import type { ComponentChildren } from "preact";
import { plural } from "../app/words/everywhere.ts";
import { safety } from "../app/words/safety.ts";
import { phone as words } from "../app/words/setup.ts";
import { choose, HANDS, hand, keepAwake, spoken, THEMES, TONES, theme, tone } from "../state/choices.ts";
import { connection, onlyHere } from "../state/connection.ts";
import { desk } from "../state/desk.ts";
import { held } from "../state/held.ts";
import { kept } from "../state/opening.ts";
import { AttentionNotices } from "./attention.tsx";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Press } from "./parts/press.tsx";
import { SaveCopy } from "./save-copy.tsx";
import { clock, dayWords } from "./told-time.ts";

export function PhoneScreen() {
  const state = connection.value;
  const card = desk.value?.card;
  const headline =
    card && card.paired_ms === null
      ? words.title.alone
      : state.kind === "only_here"
        ? words.title.here(state.n)
        : words.title.server;
  return (
    <Page headline={headline} under={card?.demo ? words.demo : null}>
      <Server />
      <Kept />
      <Section title={words.look}>
        <Choice
          label={words.theme}
          value={theme.value}
          options={THEMES.map((value) => ({ value, text: words.themes[value] }))}
          onChoose={(value) => choose("theme", value)}
        />
        <p class="quiet small section-note">{words.themeNote}</p>
        {theme.value === "hatch-room" && (
          <Choice
            label={words.tone}
            value={tone.value}
            options={TONES.map((value) => ({ value, text: words.tones[value] }))}
            onChoose={(value) => choose("tone", value)}
          />
        )}
        <Choice
          label={words.hand}
          value={hand.value}
          options={HANDS.map((value) => ({ value, text: words.hands[value] }))}
          onChoose={(value) => choose("hand", value)}
        />
      </Section>
      <Section title={words.counting}>
        <Switch
          text={words.awake}
          on={keepAwake.value === "yes"}
          onTurn={(on) => choose("keepAwake", on ? "yes" : "no")}
        />
        <Switch
          text={words.say}
          on={spoken.value === "yes"}
          onTurn={(on) => choose("spoken", on ? "yes" : "no")}
        />
      </Section>
      <Section title={words.alarm}>
        <p>{safety.alarm}</p>
        <p>{safety.hands}</p>
        <p>{safety.mains}</p>
        <p class="quiet">{safety.rule}</p>
      </Section>
    </Page>
  );
}

function Section({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="section">
      <h2>{title}</h2>
      {children}
    </section>
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
          <p>{words.paired(words.roles[card.role], card.name)}</p>
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
    </Section>
  );
}

const timeOf = (at_ms: number, zone: string) => `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;

function Kept() {
  const promise = kept.value;
  return (
    <Section title={words.storage}>
      <p>{promise === null ? words.unknownKept : promise ? words.kept : words.notKept}</p>
      {promise !== true && (
        <div class="acts">
          <Press kind="plain" onPress={() => desk.value?.askToKeep()}>
            {words.askKeep}
          </Press>
        </div>
      )}
      <SaveCopy />
    </Section>
  );
}

function Switch({ text, on, onTurn }: { text: string; on: boolean; onTurn: (on: boolean) => void }) {
  return (
    <div class="check">
      <Press role="switch" checked={on} name={text} onPress={() => onTurn(!on)}>
        {on ? words.on : words.off}
      </Press>
      <span aria-hidden="true">{text}</span>
    </div>
  );
}
