// The first-run guide: steps in order with the way to each, ticked by what the book and this phone already hold.
import { start as words } from "../app/words/first-hour.ts";
import { desk } from "../state/desk.ts";
import { readyOffline } from "../state/newer-app.ts";
import { standing } from "../state/standing.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";

interface Step {
  readonly name: keyof typeof words.steps;
  readonly href: string;
  /** null: nobody can tell; it is not counted. */
  readonly done: boolean | null;
}

/** So many have written in the book once a second phone takes part. */
const WRITING_TOGETHER = 2;

function stepsNow(): readonly Step[] {
  const { heads, settings, places } = standing.value;
  const card = desk.value?.card;
  const paired = card?.paired_ms != null;
  const from = new Set(Object.values(heads).flatMap((list) => list.map((head) => head.device)));
  const imported = from.delete("import");
  const place: Step = {
    name: "place",
    href: "/welcome",
    done: Boolean(heads.keeper?.length) && places.size > 0,
  };
  const pair: Step = { name: "pair", href: "/pair", done: paired };
  return [
    place,
    pair,
    { name: "table", href: "/phone/tables", done: imported || null },
    { name: "others", href: "/phone/devices", done: from.size >= WRITING_TOGETHER },
    { name: "ready", href: "/phone/ready", done: readyOffline.value === true },
    { name: "eggs", href: "/rooms/set", done: settings.size > 0 },
    { name: "copy", href: "/phone", done: null },
  ];
}

export function FirstHour() {
  const steps = stepsNow();
  const counted = steps.filter((step) => step.done !== null);
  const done = counted.filter((step) => step.done).length;
  const next = steps.find((step) => step.done === false);
  return (
    <Page
      over={words.title}
      headline={next ? words.steps[next.name].title : words.all}
      under={words.of(done, counted.length)}
    >
      <Notice>{desk.value?.card.demo ? words.demo : words.own}</Notice>
      <ol class="steps">
        {steps.map((step) => {
          const { title, words: told, go } = words.steps[step.name];
          return (
            <li key={step.name}>
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
