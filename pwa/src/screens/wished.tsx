// How many eggs to set for the pullets and cockerels wished for: by family with the chance, by setting with the days.
import { useEffect } from "preact/hooks";
import { answers, chanceTold } from "../app/words/answers.ts";
import { everywhere } from "../app/words/everywhere.ts";
import { wished as words } from "../app/words/wished.ts";
import { ownWords } from "../book/own-words.ts";
import { askEggsPlan, eggsPlanTold } from "../state/breeding-reports.ts";
import { standing } from "../state/standing.ts";
import type { EggsPlan, EggsSetting, EggsTarget } from "../state/wished-report.ts";
import { localDate } from "../trade/calendar.ts";
import { useKept } from "./kept-wishes.ts";
import { familyName, placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { DayField } from "./parts/day-field.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { PrintPress, Stale, ToldAnswer } from "./told-answer.tsx";
import { weekdayTold } from "./told-day.ts";
import { WishedCalendar } from "./wished-calendar.tsx";

/** As the server is asked. */
interface Wanted {
  readonly pullets: number;
  readonly cockerels: number;
  readonly chance: number;
  readonly family: string;
  readonly hatch_on: string;
}

const CHANCES = [70, 80, 90, 95, 99];
const MOST = 30;

export function WishedScreen() {
  const [wanted, setWanted] = useKept<Wanted>("eggs wished for", {
    pullets: 4,
    cockerels: 2,
    chance: 90,
    family: "",
    hatch_on: "",
  });
  useEffect(() => void askEggsPlan(wanted), [wanted]);
  return (
    <ToldAnswer answer={eggsPlanTold.value} title={words.waiting} again={() => void askEggsPlan(wanted)}>
      {(report, when) => <Wished report={report} when={when} wanted={wanted} onWant={setWanted} />}
    </ToldAnswer>
  );
}

interface WishedProps {
  readonly report: EggsPlan;
  readonly when: string;
  readonly wanted: Wanted;
  readonly onWant: (wanted: Wanted) => void;
}

function Wished({ report, when, wanted, onWant }: WishedProps) {
  const own = ownWords(standing.value.keeper.words).family.one;
  const { pullets, cockerels } = wanted;
  const nothing = report.targets.length === 0;
  return (
    <Page
      headline={
        nothing ? words.none : words.headline(report.eggs, pullets, cockerels, report.chance ?? 0, own)
      }
      over={answers.over(when)}
      under={nothing ? words.noneRemedy : null}
      beside={<PrintPress />}
      wide
    >
      <Stale answer={eggsPlanTold.value} when={when} />
      <WantedForm wanted={wanted} onWant={onWant} />
      {!nothing && (
        <section class="section">
          <h2>{words.eggs}</h2>
          <ul class="rows">
            {report.targets.map((target) => (
              <Target key={target.family} target={target} />
            ))}
          </ul>
        </section>
      )}
      {report.settings.length > 0 && (
        <section class="section">
          <h2>{words.settings}</h2>
          <WishedCalendar settings={report.settings} />
          <ul class="rows">
            {report.settings.map((setting) => (
              <SettingTold key={`${setting.setOn} ${setting.place} ${setting.species}`} setting={setting} />
            ))}
          </ul>
        </section>
      )}
      {report.assumptions.length > 0 && (
        <section class="section">
          <h2>{words.granted}</h2>
          <ul class="rows">
            {report.assumptions.map((told) => (
              <li key={told}>{told}</li>
            ))}
          </ul>
        </section>
      )}
    </Page>
  );
}

function WantedForm({ wanted, onWant }: { wanted: Wanted; onWant: (wanted: Wanted) => void }) {
  const { families, keeper } = standing.value;
  const today = localDate(useNow(), keeper.zone);
  const want = (change: Partial<Wanted>) => onWant({ ...wanted, ...change });
  const stepper = (label: string, name: "pullets" | "cockerels") => (
    <div class="field">
      <span class="label">{label}</span>
      <Stepper
        label={label}
        value={wanted[name]}
        most={MOST}
        words={{ ...everywhere }}
        onChange={(value) => want({ [name]: value })}
      />
    </div>
  );
  return (
    <section class="section no-print">
      <h2>{words.wishes}</h2>
      <div class="pens">
        {stepper(words.pullets, "pullets")}
        {stepper(words.cockerels, "cockerels")}
        <SelectField
          label={words.chance}
          value={String(wanted.chance)}
          options={CHANCES.map((chance) => ({ value: String(chance), text: chanceTold(chance / 100) }))}
          onChoose={(value) => want({ chance: Number(value) })}
        />
        <DayField
          label={words.hatchOn}
          value={wanted.hatch_on}
          min={today}
          onType={(day) => want({ hatch_on: day })}
        />
        <SelectField
          label={words.family(ownWords(keeper.words).family.one)}
          value={wanted.family}
          options={[
            { value: "", text: words.all },
            ...[...families].map(([id, family]) => ({ value: id, text: family.name })),
          ]}
          onChoose={(family) => want({ family })}
        />
      </div>
    </section>
  );
}

function Target({ target }: { target: EggsTarget }) {
  const { store } = target;
  const there = store ? words.pace(target.inStore, store.paceWeek) : words.store(target.inStore);
  const by =
    !store || target.inStore >= target.eggs
      ? null
      : store.enoughOn
        ? words.enoughOn(weekdayTold(store.enoughOn))
        : words.stopped;
  return (
    <li>
      <b>{words.eggsOf(target.name, target.eggs, target.chance)}</b>
      <p>{target.options.map((one) => words.option(one.eggs, one.chance)).join(", ")}</p>
      <p class="quiet">{[there, by].filter(Boolean).join("; ")}</p>
      {target.parents && <p>{target.parents}</p>}
      {!target.enough && <p>{words.notEnough}</p>}
    </li>
  );
}

function SettingTold({ setting }: { setting: EggsSetting }) {
  const n = setting.lots.reduce((sum, lot) => sum + lot.n, 0);
  const place = setting.place ? placeName(standing.value, setting.place) : words.anyPlace;
  return (
    <li>
      <b>
        {weekdayTold(setting.setOn)}: {words.setting(n, place)}
      </b>
      <p>{setting.lots.map((lot) => words.lots(familyName(standing.value, lot.family), lot.n)).join(", ")}</p>
      <p class="quiet">{words.days(weekdayTold(setting.lockdownOn), weekdayTold(setting.hatchOn))}</p>
    </li>
  );
}
