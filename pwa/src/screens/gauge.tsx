// A gauge held against a trusted one: what it reads, what it should read, and that later readings are put right by it.
import { useState } from "preact/hooks";
import { air as airWords, gauge as words } from "../app/words/air.ts";
import { GAUGES, type GaugeName, lastCheck, seasonOf } from "../book/readings.ts";
import { undo } from "../state/actions.ts";
import { checkGauge } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { celsiusOf, degreesText, temperatureUnit } from "./measures.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { MeasureField, measured, numberFault } from "./parts/measure-field.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";
import { dayWords } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

/** Off by more than this, in °C or points, a gauge is rather broken, or a digit is wrong. Our judgement. */
const FAR = { dry: 3, wet: 3, humidity: 20 } as const;

export function GaugeScreen({ place }: { place: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const season = seasonOf(totals, now_ms);
  const checks = GAUGES.flatMap((name) => {
    const check = lastCheck(totals, place, name);
    return check && seasonOf(totals, check.atMs) === season ? [{ name, check }] : [];
  });
  return (
    <Page
      over={words.over(placeName(totals, place))}
      headline={checks.length === 0 ? words.title.none : words.title.done(checks.length)}
      under={words.hint}
    >
      <Checking place={place} now_ms={now_ms} />
      <section class="section">
        <h2>{words.list}</h2>
        <ul class="rows">
          {GAUGES.map((name) => {
            const check = checks.find((one) => one.name === name)?.check;
            if (!check) return <li key={name}>{words.never(words.names[name])}</li>;
            const off = check.body.true_value - check.body.reads;
            const told = off === 0 ? words.finds.true : words.off(signed(off, name));
            return (
              <li key={name}>
                <div class="row-act">
                  <p>{words.line(words.names[name], dayWords(check.atMs, totals.keeper.zone), told)}</p>
                  <Press
                    kind="bare"
                    name={`${airWords.chart.takeBack}: ${words.names[name]}`}
                    onPress={() => void undo(check.root)}
                  >
                    {airWords.chart.takeBack}
                  </Press>
                </div>
              </li>
            );
          })}
        </ul>
        <p class="quiet small">{words.hintSource}</p>
      </section>
    </Page>
  );
}

function Checking({ place, now_ms }: { place: string; now_ms: number }) {
  const unit = temperatureUnit(standing.value);
  const [name, setName] = useState<GaugeName>("dry");
  const [reads, setReads] = useState("");
  const [right, setRight] = useState("");
  const [against, setAgainst] = useState("");
  const [moment, setMoment] = useState<Moment>(NOW);
  const [asked, setAsked] = useState(false);
  const [written, setWritten] = useState(0);
  const shownUnit = name === "humidity" ? "%" : `°${unit}`;
  const inside = (text: string) => {
    const typed = measured(text);
    return typed === null ? null : name === "humidity" ? typed : celsiusOf(typed, unit);
  };
  const faultOf = (text: string) => {
    const fault = numberFault(text, airWords.fault);
    const value = inside(text);
    if (fault || value === null) return asked || text ? fault : null;
    if (name === "humidity") return value < 0 || value > 100 ? airWords.fault.humidity : null;
    return value < 0 || value > 60 ? airWords.fault.unit(unit, unit === "C" ? "F" : "C") : null;
  };
  const [readsFault, rightFault] = [faultOf(reads), faultOf(right)];
  const [from, to] = [inside(reads), inside(right)];
  const off =
    from === null || to === null || readsFault || rightFault ? null : Math.round((to - from) * 1000) / 1000;
  const now = new Date(now_ms);
  const save = () => {
    setAsked(true);
    const at = whenOf(moment, now);
    if (off === null || from === null || to === null || at === undefined) return;
    const said = against.trim();
    void checkGauge(
      { place, gauge: name, reads: from, true_value: to, ...(said ? { against: said } : {}) },
      at ?? undefined,
    );
    setReads("");
    setRight("");
    setAsked(false);
    setMoment(NOW);
    setWritten(written + 1);
  };
  return (
    <section class="section" aria-label={words.save}>
      <Choice
        label={words.which}
        value={name}
        options={GAUGES.map((value) => ({ value, text: words.names[value] }))}
        onChoose={setName}
      />
      <div class="pair">
        <MeasureField label={words.reads(shownUnit)} text={reads} onType={setReads} fault={readsFault} />
        <MeasureField
          label={words.right(shownUnit)}
          text={right}
          onType={setRight}
          fault={rightFault}
          onEnter={save}
        />
      </div>
      <TextField label={words.against} hint={words.againstHint} value={against} onType={setAgainst} />
      {off !== null && (
        <p class="live-figure" role="status">
          {off === 0
            ? words.finds.true
            : off < 0
              ? words.finds.high(amount(off, name))
              : words.finds.low(amount(off, name))}
        </p>
      )}
      {off !== null && Math.abs(off) > FAR[name] && <p class="warned">{words.far}</p>}
      <When key={written} moment={moment} now={now} onChange={setMoment} />
      <div class="acts">
        <Press kind="main" onPress={save}>
          {words.save}
        </Press>
      </div>
    </section>
  );
}

/** "0.3 °C", "4.0 points". */
function amount(off: number, name: GaugeName): string {
  return name === "humidity"
    ? `${Math.abs(off).toFixed(1)} ${words.percent}`
    : degreesText(off, temperatureUnit(standing.value));
}

const signed = (off: number, name: GaugeName) => `${off > 0 ? "+" : "−"}${amount(off, name)}`;
