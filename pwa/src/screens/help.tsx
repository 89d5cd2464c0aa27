// Short how-to pages for beside the machine, with pictures of our own; all of them are on the phone.
import { useState } from "preact/hooks";
import { start } from "../app/words/first-hour.ts";
import {
  HELP_TOPICS,
  type HelpTopic,
  helpFigures,
  practice as practiceWords,
  seen,
  steps,
  help as words,
} from "../app/words/help.ts";
import { regionOf } from "../app/words/region.ts";
import { safety } from "../app/words/safety.ts";
import { ownWords } from "../book/own-words.ts";
import { standing } from "../state/standing.ts";
import { query } from "../state/whereabouts.ts";
import { OPEN_AFTER_H } from "../trade/breakout.ts";
import { LOOK_AGAIN_DAYS, TRAY_OUT_MIN } from "../trade/candling.ts";
import { PIP_TO_OUT_H } from "../trade/hatch-hours.ts";
import { sourceTitle } from "../trade/sources.ts";
import { DARK_SHELL_DAY } from "../trade/species.ts";
import { FirstHour } from "./first-hour.tsx";
import { lookThrough } from "./help-search.ts";
import { CAUTIONS, LAMP, OPENED, openedTold, span, stepsOf } from "./help-steps.ts";
import { Page } from "./page.tsx";
import { Baskets } from "./parts/basket.tsx";
import { CandledEgg } from "./parts/candled-egg.tsx";
import { Notice } from "./parts/notice.tsx";
import { OpenedEgg } from "./parts/opened-egg.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Why, type WhyInput, type WhySource } from "./parts/why.tsx";
import { Section } from "./section.tsx";

const titled = (source: string, status: WhySource["status"]): WhySource => ({
  title: sourceTitle(source) ?? source,
  ...(status ? { status } : {}),
});
const memory = titled(PIP_TO_OUT_H.source, PIP_TO_OUT_H.status);
const practice = titled(TRAY_OUT_MIN.source, "practice");

interface Figures {
  readonly inputs: readonly WhyInput[];
  readonly sources: readonly WhySource[];
}

const FIGURES: Readonly<Partial<Record<HelpTopic, Figures>>> = {
  candle: {
    inputs: [
      helpFigures.tray_out(TRAY_OUT_MIN.value),
      helpFigures.look_again(span(LOOK_AGAIN_DAYS.value)),
      helpFigures.dark_shell(DARK_SHELL_DAY),
    ],
    sources: [practice],
  },
  hatch: { inputs: [helpFigures.pip_to_out(span(PIP_TO_OUT_H.value))], sources: [memory] },
  late: { inputs: [helpFigures.open_after(OPEN_AFTER_H)], sources: [practice] },
  open: { inputs: [helpFigures.open_after(OPEN_AFTER_H)], sources: [practice] },
};

/** Pages whose advice beside their figures was read nowhere. */
const PRACTICE: readonly HelpTopic[] = ["mark", "brood", "late", "weak", "kin"];

export function HelpScreen({ topic }: { topic: string | null }) {
  if (topic === "start") return <FirstHour />;
  const known = HELP_TOPICS.find((one) => one === topic);
  return known ? <Topic topic={known} /> : <Topics />;
}

function Topics() {
  const [asked, setAsked] = useState("");
  const { keeper } = standing.value;
  const { found, whole, read } = lookThrough(asked, ownWords(keeper.words), regionOf(keeper.region));
  const told = whole ? words.found : words.some;
  return (
    <Page headline={words.title} under={words.under}>
      <TextField
        label={words.search}
        hint={words.searchHint}
        value={asked}
        capitals="off"
        onType={setAsked}
      />
      <div role="status">
        {asked.trim() && <p>{found.length > 0 ? told(found.length) : words.nothing}</p>}
        {found.length > 0 && read !== null && <p class="quiet">{words.read(read)}</p>}
      </div>
      <ul class="rows">
        {found.map(({ topic, lines }) => (
          <li key={topic}>
            <a class="press bare" href={`/help/${topic}`}>
              {words.topics[topic]}
            </a>
            {lines.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </li>
        ))}
      </ul>
      <div class="acts">
        <a class="press main" href="/help/start">
          {start.title}
        </a>
        {HELP_TOPICS.map((topic) => (
          <a class="press plain" key={topic} href={`/help/${topic}`}>
            {words.topics[topic]}
          </a>
        ))}
      </div>
      <Section title={words.cautions}>
        <p>{safety.mains}</p>
        <p>{safety.hands}</p>
        <p>{safety.alarm}</p>
        <p class="quiet">{safety.rule}</p>
      </Section>
    </Page>
  );
}

function Topic({ topic }: { topic: HelpTopic }) {
  const figures = FIGURES[topic];
  const from = query.value.get("from");
  return (
    <Page over={words.topics[topic]} headline={words.headlines[topic]}>
      <ol class="steps">
        {stepsOf(topic, ownWords(standing.value.keeper.words)).map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <Pictures topic={topic} />
      <Section title={words.cautions}>
        {CAUTIONS[topic].map((caution) => (
          <Notice key={caution}>{caution}</Notice>
        ))}
        <p class="quiet">{safety.rule}</p>
        {PRACTICE.includes(topic) && <p class="quiet small">{practiceWords}</p>}
      </Section>
      {figures && <Why about={words.figures} formula={helpFigures.formula} {...figures} />}
      <div class="acts">
        {from?.startsWith("/setting/") && (
          <a class="press main" href={from}>
            {words.backToCount}
          </a>
        )}
        <a class="press plain" href="/help">
          {words.all}
        </a>
      </div>
    </Page>
  );
}

function Pictures({ topic }: { topic: HelpTopic }) {
  const region = regionOf(standing.value.keeper.region);
  if (topic === "lockdown") {
    const signs = [...standing.value.families.values()].map(({ sign }) => sign).filter((sign) => sign);
    const shown = signs.length > 1 ? signs.slice(0, 3) : ["A", "B", "C"];
    return (
      <Baskets
        signs={shown as string[]}
        name={steps.lockdown(ownWords(standing.value.keeper.words))[2] ?? ""}
      />
    );
  }
  if (topic === "candle")
    return (
      <Section title={words.pictures}>
        <ul class="shown">
          {LAMP.map((shows) => (
            <li key={shows}>
              <CandledEgg shows={shows} />
              <span>{seen[shows]}</span>
            </li>
          ))}
        </ul>
      </Section>
    );
  if (topic === "open")
    return (
      <Section title={words.pictures}>
        <ul class="shown">
          {OPENED.map((stage) => (
            <li key={stage}>
              <OpenedEgg stage={stage} />
              <span>{openedTold(stage, region)}</span>
            </li>
          ))}
        </ul>
      </Section>
    );
  return null;
}
