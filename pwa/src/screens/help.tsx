// Short how-to pages for beside the machine, with pictures of our own; all of them are on the phone.
import { HELP_TOPICS, type HelpTopic, helpFigures, seen, steps, help as words } from "../app/words/help.ts";
import { regionOf } from "../app/words/region.ts";
import { safety } from "../app/words/safety.ts";
import { stageWords } from "../app/words/stages.ts";
import { cautions } from "../app/words/tally-panels.ts";
import { type OwnWords, ownWords } from "../book/own-words.ts";
import { standing } from "../state/standing.ts";
import { query } from "../state/whereabouts.ts";
import { OPEN_AFTER_H } from "../trade/breakout.ts";
import { LOOK_AGAIN_DAYS, TRAY_OUT_MIN } from "../trade/candling.ts";
import { PIP_TO_OUT_H } from "../trade/hatch-hours.ts";
import { sourceTitle } from "../trade/sources.ts";
import { DARK_SHELL_DAY } from "../trade/species.ts";
import { Page } from "./page.tsx";
import { Baskets } from "./parts/basket.tsx";
import { CandledEgg, type LampPicture } from "./parts/candled-egg.tsx";
import { Notice } from "./parts/notice.tsx";
import { OpenedEgg, type OpenedStage } from "./parts/opened-egg.tsx";
import { Why, type WhyInput, type WhySource } from "./parts/why.tsx";
import { Section } from "./section.tsx";

const span = ([from, to]: readonly number[]) => `${from} to ${to}`;
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

const stepsOf = (own: OwnWords): Readonly<Record<HelpTopic, readonly string[]>> => ({
  candle: steps.candle(TRAY_OUT_MIN.value, DARK_SHELL_DAY, span(LOOK_AGAIN_DAYS.value)),
  lockdown: steps.lockdown(own),
  hatch: steps.hatch(span(PIP_TO_OUT_H.value), own),
  open: steps.open(OPEN_AFTER_H),
  tally: steps.tally(own),
});

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
  open: { inputs: [helpFigures.open_after(OPEN_AFTER_H)], sources: [practice] },
};

const CAUTIONS: Readonly<Record<HelpTopic, readonly string[]>> = {
  candle: [safety.mains, safety.hands],
  lockdown: [safety.mains],
  hatch: [cautions.lidWhy, safety.helping, safety.hands],
  open: [cautions.opening, safety.hands],
  tally: [safety.alarm],
};

const LAMP: readonly LampPicture[] = ["live", "clear", "blood_ring", "quitter", "air_cell"];
const OPENED: readonly OpenedStage[] = [
  "infertile",
  "dead_early",
  "dead_mid",
  "dead_late",
  "dead_internal_pip",
  "dead_external_pip",
];

export function HelpScreen({ topic }: { topic: string | null }) {
  const known = HELP_TOPICS.find((one) => one === topic);
  return known ? <Topic topic={known} /> : <Topics />;
}

function Topics() {
  return (
    <Page headline={words.title} under={words.under}>
      <div class="acts">
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
        {stepsOf(ownWords(standing.value.keeper.words))[topic].map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      <Pictures topic={topic} />
      <Section title={words.cautions}>
        {CAUTIONS[topic].map((caution) => (
          <Notice key={caution}>{caution}</Notice>
        ))}
        <p class="quiet">{safety.rule}</p>
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
          {OPENED.map((stage) => {
            const { button, seen: looks } = stageWords(stage, region);
            return (
              <li key={stage}>
                <OpenedEgg stage={stage} />
                <span>
                  {button}: {looks}.
                </span>
              </li>
            );
          })}
        </ul>
      </Section>
    );
  return null;
}
