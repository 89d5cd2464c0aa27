// Weighing many birds fast: whom, the mark if it has one, the weight, next. Each weight is safe before the next bird.
import { useMemo, useState } from "preact/hooks";
import { weighing as words } from "../app/words/weights.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import { standing } from "../state/standing.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { DayField } from "./parts/day-field.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { isDay } from "./told-day.ts";
import { dayKey } from "./told-time.ts";
import { WeighOne } from "./weigh-one.tsx";
import { scopeAsked, scopesOf } from "./weigh-scope.ts";

export function WeighBirdsScreen({ asked }: { asked: string | null }) {
  const totals = standing.value;
  const today = dayKey(useNow(), totals.keeper.zone);
  const birds = useMemo(() => birdsOf(totals, today), [totals, today]);
  const scopes = useMemo(() => scopesOf(totals, [...birds.values()], today), [totals, birds, today]);
  const [key, setKey] = useState<string | null>(asked);
  const [day, setDay] = useState("");
  const scope = scopeAsked(scopes, key) ?? scopes[0];
  if (!scope) {
    return (
      <Page over={words.over} headline={words.nobody} under={words.nobodyRemedy}>
        <div class="acts">
          <a class="press plain" href="/birds/growth">
            {words.growth}
          </a>
        </div>
      </Page>
    );
  }
  const on = day || today;
  const wrongDay = !isDay(on) || on > today;
  const first: OneBird | undefined = asked?.startsWith("bird:")
    ? birds.get(birdId(totals, asked.slice("bird:".length)))
    : undefined;
  return (
    <Page over={words.over} headline={scope.text}>
      {!wrongDay && (
        <WeighOne key={`${scope.key} ${on}`} scope={scope} birds={birds} on={on} first={first ?? null} />
      )}
      <SelectField
        label={words.who}
        value={scope.key}
        options={scopes.map((one) => ({ value: one.key, text: one.text }))}
        onChoose={setKey}
      />
      <DayField label={words.day} value={on} max={today} onType={setDay} />
      {wrongDay && <p class="fault">{words.ahead}</p>}
      <p class="quiet section-note">{words.dayHint}</p>
      <div class="acts">
        <a class="press plain" href="/birds/growth">
          {words.growth}
        </a>
      </div>
    </Page>
  );
}
