// The air of one machine: read it, see the humidity it gives, the last days, and what to do.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { air as words } from "../app/words/air.ts";
import { airLine, machine } from "../app/words/machine.ts";
import { safety } from "../app/words/safety.ts";
import { speciesTerms } from "../app/words/species.ts";
import { undo } from "../state/actions.ts";
import { openDesk } from "../state/desk.ts";
import { isByThermometer, readAir } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { heightM } from "../trade/air.ts";
import { AirAdvice } from "./air-advice.tsx";
import { AirCharts } from "./air-charts.tsx";
import { type AirForm, emptyForm, faultsOf, readForm, type Way } from "./air-form.ts";
import { isInBand, judgement, readingText } from "./air-line.tsx";
import { AirSilence } from "./air-silence.tsx";
import { airView } from "./air-view.ts";
import { AirWhy } from "./air-why.tsx";
import { temperatureText, temperatureUnit } from "./measures.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { MeasureField } from "./parts/measure-field.tsx";
import { NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { viewsIn } from "./setting-view.ts";
import { ago } from "./told-time.ts";
import { When, whenOf } from "./when.tsx";

const WAYS: readonly Way[] = ["wet", "humidity", "dry"];

export function AirScreen({ place }: { place: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const view = airView(totals, place, viewsIn(totals, place, now_ms), now_ms);
  const { last, wanted } = view;
  const unit = temperatureUnit(totals);
  const [first] = wanted;
  const reading = last ? readingText(last.dryC, last.humidityPct) : "";
  const headline = !last
    ? words.none
    : !first || isInBand(view)
      ? first
        ? words.title.fine(reading)
        : reading
      : words.title.out(
          reading,
          judgement(
            wanted.find((one) => one.way || one.air || one.unread) ?? first,
            last.humidityPct !== null,
          ),
        );
  const under: ComponentChildren = last ? airLine.at(ago(last.atMs, now_ms, airLine.age)) : words.noneRemedy;
  return (
    <Page over={words.over(placeName(totals, place))} headline={headline} under={under}>
      {wanted.map((one) =>
        one.bandC === null ? null : (
          <p key={`${one.species} ${one.stage}`} class="quiet">
            {words.target(
              speciesTerms(one.species).name,
              temperatureText(one.bandC[0], unit),
              temperatureText(one.bandC[1], unit),
            )}
            {`, ${Math.round(one.humidity[0])} to ${Math.round(one.humidity[1])} %`}
          </p>
        ),
      )}
      <Entering place={place} now_ms={now_ms} />
      {last && isByThermometer(last.entry) && <AirSilence place={place} now_ms={now_ms} />}
      <AirAdvice view={view} place={place} />
      <AirCharts view={view} now_ms={now_ms} />
      <AirWhy view={view} place={place} />
      <Notice>
        <p class="quiet small">{safety.alarm}</p>
      </Notice>
    </Page>
  );
}

/** Typing a reading: the humidity stands there before it is written down. */
function Entering({ place, now_ms }: { place: string; now_ms: number }) {
  const totals = standing.value;
  const unit = temperatureUnit(totals);
  const [form, setForm] = useState<AirForm>(() => emptyForm(totals, place));
  const [asked, setAsked] = useState(false);
  const [saved, setSaved] = useState<{ readonly what: string; readonly entry: string } | null>(null);
  const [written, setWritten] = useState(0);
  const now = new Date(now_ms);
  const change = (part: Partial<AirForm>) => {
    setForm({ ...form, ...part });
    setSaved(null);
  };
  const faults = faultsOf(form, unit, heightM(totals.keeper.altitude_m));
  const read = readForm(form, unit, heightM(totals.keeper.altitude_m));
  const at = whenOf(form.moment, now);
  const save = () => {
    setAsked(true);
    if (read === null || at === undefined) return;
    const entry = openDesk().ids.next();
    void readAir({ place, ...read.body }, entry, at ?? undefined);
    setSaved({ what: readingText(read.body.dry_c, read.humidityPct), entry });
    setWritten(written + 1);
    setForm({ ...form, dry: "", wet: "", humidity: "", moment: NOW });
    setAsked(false);
  };
  const takeBack = () => {
    if (saved) void undo(saved.entry);
    setSaved(null);
  };
  const shown = (fault: string | null, text: string) => (asked || text !== "" ? fault : null);
  return (
    <section class="section" aria-label={machine.air}>
      <Choice
        label={words.by}
        value={form.way}
        options={WAYS.map((value) => ({ value, text: words.ways[value] }))}
        onChoose={(way) => change({ way })}
      />
      <div class="pair">
        <MeasureField
          label={form.way === "wet" ? words.dry(unit) : words.temperature(unit)}
          text={form.dry}
          onType={(dry) => change({ dry })}
          fault={shown(faults.dry, form.dry)}
          onEnter={save}
        />
        {form.way === "wet" && (
          <MeasureField
            label={words.wet(unit)}
            text={form.wet}
            onType={(wet) => change({ wet })}
            fault={shown(faults.wet, form.wet)}
            onEnter={save}
          />
        )}
        {form.way === "humidity" && (
          <MeasureField
            label={words.humidity}
            text={form.humidity}
            onType={(humidity) => change({ humidity })}
            fault={shown(faults.humidity, form.humidity)}
            onEnter={save}
          />
        )}
      </div>
      {form.way === "wet" && read?.humidityPct != null && (
        <p class="live-figure" role="status">
          {words.gives(`${Math.round(read.humidityPct)} %`)}
        </p>
      )}
      <When key={written} moment={form.moment} now={now} onChange={(moment) => change({ moment })} />
      <div class="acts">
        <Press kind="main" onPress={save}>
          {words.save}
        </Press>
      </div>
      {saved && (
        <div class="done-line" role="status">
          <p>{words.saved(saved.what)}</p>
          <div class="acts">
            <Press kind="plain" name={`${machine.undo}: ${saved.what}`} onPress={takeBack}>
              {machine.undo}
            </Press>
          </div>
        </div>
      )}
    </section>
  );
}
