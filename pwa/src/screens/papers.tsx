// Papers and files that the server makes: links, and the days they are about.
import { papers as words } from "../app/words/papers.ts";
import { tables } from "../app/words/tables.ts";
import { standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { useDay } from "./own-day.ts";
import { Page } from "./page.tsx";
import { Paper } from "./paper-links.tsx";
import { DayField } from "./parts/day-field.tsx";
import { Section } from "./section.tsx";
import { seasonOf } from "./told-season.ts";
import { dateInYear, dayKey } from "./told-time.ts";

const DAY_MS = 86_400_000;
const SHOWN = 12;

import { isDay } from "./told-day.ts";

export function PapersScreen() {
  const now_ms = useNow();
  const { settings, keeper } = standing.value;
  const { zone, season_starts } = keeper;
  const today = dayKey(now_ms, zone);
  const year = seasonOf(today, season_starts);
  const last = [...settings.values()].sort((a, b) => b.setAtMs - a.setAtMs);
  return (
    <Page headline={words.title} under={words.under}>
      {[year, year - 1].map((one) => (
        <Section key={one} title={words.season(one)}>
          <div class="acts">
            <Paper path={`papers/season/${one}.pdf`} what={words.report} of={words.season(one)} />
            <Paper path={`papers/marks/${one}.pdf`} what={words.marks} of={words.season(one)} />
            <Paper path={`exports/season.xlsx?year=${one}`} what={words.sheet} of={words.season(one)} />
          </div>
        </Section>
      ))}
      <OfDays
        title={words.away}
        what={words.awayMake}
        path="papers/away.pdf"
        from={today}
        until={dayKey(now_ms + 7 * DAY_MS, zone)}
      />
      <OfDays
        title={words.inspector}
        what={words.inspectorMake}
        path="papers/inspection.pdf"
        from={dayKey(now_ms - 365 * DAY_MS, zone)}
        until={today}
      />
      {last.slice(0, SHOWN).map((one) => {
        const title = words.setting(
          placeName(standing.value, one.place),
          dateInYear(one.setAtMs, now_ms, zone),
        );
        return (
          <Section key={one.id} title={title}>
            <div class="acts">
              <Paper path={`papers/setting/${one.id}.pdf`} what={words.report} of={title} />
              <Paper path={`papers/cards/${one.id}.pdf`} what={words.cards} of={title} />
              <Paper path={`papers/tally/${one.id}.pdf`} what={words.count} of={title} />
            </div>
          </Section>
        );
      })}
      {last.length > SHOWN && <p class="quiet">{words.more(last.length - SHOWN)}</p>}
      <Section title={words.all}>
        <div class="acts">
          <Paper path="exports/book.xlsx" what={words.book} of={words.all} />
          <Paper path="exports/book.zip" what={words.package} of={words.all} />
          <Paper path="exports/book.jsonl" what={words.lines} of={words.all} />
        </div>
        <p class="quiet small">{words.formulas}</p>
      </Section>
      <Section title={tables.title}>
        <div class="acts">
          <a class="press plain" href="/phone/tables">
            {tables.link}
          </a>
        </div>
      </Section>
    </Page>
  );
}

function OfDays(props: { title: string; what: string; path: string; from: string; until: string }) {
  const [from, setFrom] = useDay(props.from);
  const [until, setUntil] = useDay(props.until);
  const isWrong = from !== "" && until !== "" && until < from;
  return (
    <Section title={props.title}>
      <DayField label={words.from} value={from} onType={setFrom} />
      <DayField
        label={words.until}
        value={until}
        onType={setUntil}
        fault={isWrong ? words.wrongDays : null}
      />
      {!isWrong && isDay(from) && isDay(until) && (
        <div class="acts">
          <Paper path={`${props.path}?from=${from}&until=${until}`} what={props.what} of={props.title} />
        </div>
      )}
    </Section>
  );
}
