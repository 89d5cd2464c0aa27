// The first-run guide: steps in order with the way to each, ticked by what the book and this phone already hold.
import { start as words } from "../app/words/first-hour.ts";
import { isImported } from "../book/imported.ts";
import { desk } from "../state/desk.ts";
import { readyOffline } from "../state/newer-app.ts";
import { standing } from "../state/standing.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";

interface Step {
  readonly name: keyof typeof words.steps;
  readonly href: string;
  readonly done: boolean;
  /** For whoever needs it: not counted, and never what comes next. */
  readonly wanted?: true;
}

/** So many have written in the book once a second phone takes part. */
const WRITING_TOGETHER = 2;

function stepsNow(): readonly Step[] {
  const { heads, settings, places } = standing.value;
  const from = new Set(Object.values(heads).flatMap((list) => list.map((head) => head.device)));
  const imported = from.delete("import");
  return [
    { name: "place", href: "/welcome", done: Boolean(heads.keeper?.length) && places.size > 0 },
    { name: "pair", href: "/pair", done: desk.value?.card.paired_ms != null },
    { name: "table", href: "/phone/tables", done: imported, wanted: true },
    { name: "ready", href: "/phone/ready", done: readyOffline.value === true },
    { name: "eggs", href: "/rooms/set", done: [...settings.keys()].some((id) => !isImported(id)) },
    { name: "others", href: "/phone/devices", done: from.size >= WRITING_TOGETHER, wanted: true },
    { name: "copy", href: "/phone", done: false, wanted: true },
  ];
}

/** Whoever has set eggs without a server goes on without one. */
function nextOf(counted: readonly Step[]): Step | undefined {
  const begun = counted.some(({ name, done }) => name === "eggs" && done);
  return counted.find(({ name, done }) => !done && !(begun && name === "pair"));
}

export function FirstHour() {
  const steps = stepsNow();
  const counted = steps.filter((step) => !step.wanted);
  const done = counted.filter((step) => step.done).length;
  const next = nextOf(counted);
  const atEnd = done === counted.length ? words.all : words.alone;
  return (
    <Page
      over={words.title}
      headline={next ? words.steps[next.name].title : atEnd}
      under={words.of(done, counted.length, steps.length - counted.length)}
    >
      <Notice>{desk.value?.card.demo ? words.demo : words.own}</Notice>
      <ol class="steps">
        {steps.map((step) => {
          const { title, words: told, go } = words.steps[step.name];
          return (
            <li key={step.name}>
              {step.wanted && !step.done && <p class="quiet small">{words.wanted}</p>}
              <h2>{title}</h2>
              <p class="quiet">{step.done ? words.done : told}</p>
              {!step.done && (
                <div class="acts">
                  <a class={step === next ? "press main" : "press plain"} href={step.href}>
                    {go}
                  </a>
                </div>
              )}
            </li>
          );
        })}
      </ol>
    </Page>
  );
}
