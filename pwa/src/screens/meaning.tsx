// What the server makes of a setting, from its last answer: what stands out, what may be behind it, and who says so.

import { useEffect } from "preact/hooks";
import { meaning as words } from "../app/words/meaning.ts";
import { tally } from "../app/words/tally.ts";
import { ownWords } from "../book/own-words.ts";
import { askSetting, settingTold } from "../state/reports.ts";
import type { Read, SettingReport } from "../state/setting-report.ts";
import { standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { findingOf, momentWords, spellWords } from "./told-finding.ts";

export function MeaningScreen({ id }: { id: string }) {
  const totals = standing.value;
  const setting = totals.settings.get(totals.rootOf.get(id) ?? id);
  useEffect(() => {
    if (setting) void askSetting(setting.id);
  }, [setting?.id]);
  if (!setting) return <Page headline={tally.gone(ownWords(standing.value.keeper.words))} />;
  const over = placeName(totals, setting.place);
  const answer = settingTold.value;
  const report = answer.kind === "unpaired" ? null : answer.report;
  if (!report || report.setting !== setting.id) {
    return <NoAnswer over={over} kind={answer.kind} setting={setting.id} />;
  }
  const when = momentWords(report.computedMs);
  return (
    <Page over={over} headline={findingOf(report) ?? words.calm} under={report.summary}>
      {answer.kind === "away" ? (
        <Notice tone="watch">{words.stale(when)}</Notice>
      ) : (
        <p class="quiet">{words.over(when)}</p>
      )}
      <Findings report={report} />
      <Air report={report} />
      <Sentences title={words.notes} rows={report.notes} />
      <Problems report={report} />
      <div class="acts">
        <a class="press plain" href={`/setting/${setting.id}`}>
          {words.setting(ownWords(standing.value.keeper.words))}
        </a>
      </div>
    </Page>
  );
}

function NoAnswer({ over, kind, setting }: { over: string; kind: string; setting: string }) {
  const isWaiting = kind === "asking";
  return (
    <Page over={over} headline={isWaiting ? words.waiting : words.none.title}>
      {!isWaiting && (
        <>
          <p class="section-note">{kind === "unpaired" ? words.none.unpaired : words.none.away}</p>
          <div class="acts">
            {kind === "unpaired" ? (
              <a class="press main" href="/pair">
                {words.none.go}
              </a>
            ) : (
              <Press kind="main" onPress={() => void askSetting(setting)}>
                {words.none.again}
              </Press>
            )}
          </div>
        </>
      )}
    </Page>
  );
}

function Findings({ report: { losses, hatch } }: { report: SettingReport }) {
  return (
    <>
      {losses.map((one) => (
        <section class="section" key={one.finding}>
          <h2>{words.losses}</h2>
          <p>{one.words}</p>
          <Causes rows={one.causes} />
          <Sources rows={[one, ...one.causes]} />
        </section>
      ))}
      {hatch.map((one) => (
        <section class="section" key={one.words}>
          <h2>{words.hatch}</h2>
          <p>{one.words}</p>
          <Causes rows={one.causes} />
          <Sources rows={one.causes} />
        </section>
      ))}
    </>
  );
}

function Causes({ rows }: { rows: readonly Read[] }) {
  if (rows.length === 0) return null;
  return (
    <>
      <h3>{words.often}</h3>
      <Lines rows={rows} />
    </>
  );
}

function Air({ report }: { report: SettingReport }) {
  const { spells, guidance, judgement, published } = report;
  if (spells.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.air}</h2>
      <ul class="lines">
        {spells.map((spell) => (
          <li key={`${spell.way} ${spell.fromMs}`}>
            <span>{spellWords(spell)}</span>
            {spell.tier && <span class="nowrap">{words.tiers[spell.tier] ?? spell.tier}</span>}
          </li>
        ))}
      </ul>
      <Lines rows={guidance} />
      <p class="quiet">{judgement}</p>
      <Sources rows={[...guidance, ...published]} />
    </section>
  );
}

function Sentences({ title, rows }: { title: string; rows: readonly Read[] }) {
  if (rows.length === 0) return null;
  return (
    <section class="section">
      <h2>{title}</h2>
      <Lines rows={rows} />
      <Sources rows={rows} />
    </section>
  );
}

function Lines({ rows }: { rows: readonly Read[] }) {
  return (
    <ul class="rows">
      {rows.map((row) => (
        <li key={row.words}>{row.words}</li>
      ))}
    </ul>
  );
}

/** What each source says, source by source. */
function Sources({ rows }: { rows: readonly Read[] }) {
  const bySource = new Map<string, string[]>();
  for (const { words: said, source } of rows) bySource.set(source, [...(bySource.get(source) ?? []), said]);
  return (
    <details>
      <summary>{words.sources}</summary>
      {[...bySource].map(([source, said]) => (
        <p key={source}>
          {source}: {said.join(" ")}
        </p>
      ))}
    </details>
  );
}

function Problems({ report: { problems } }: { report: SettingReport }) {
  if (problems.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.problems}</h2>
      <ul class="rows">
        {problems.map(({ message, remedy }) => (
          <li key={message}>
            <b>{message}</b> <span class="quiet">{remedy}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
