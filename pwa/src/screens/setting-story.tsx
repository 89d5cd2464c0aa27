// What was written about one setting, newest first, in the words of the book.

import { useMemo } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { setting as words } from "../app/words/rooms.ts";
import type { Entry } from "../book/entries.ts";
import { standing } from "../state/standing.ts";
import type { SettingView } from "./setting-view.ts";
import { storyLines, tellEntries } from "./story.ts";
import { batchesIn, settingIn } from "./told-heading.ts";
import { ago, clock, daysBetween, dayWords } from "./told-time.ts";

interface SettingStoryProps {
  readonly view: SettingView;
  readonly entries: readonly Entry[];
  readonly now_ms: number;
}

export function SettingStory({ view, entries, now_ms }: SettingStoryProps) {
  const totals = standing.value;
  const { zone } = totals.keeper;
  const { id } = view.setting;
  const lines = useMemo(() => {
    const about = entries.filter((entry) => settingIn(entry, totals) === id);
    const told = tellEntries(about, totals.rootOf).filter((one) => !one.back);
    return storyLines(told, totals);
  }, [entries, totals, id]);
  const when = (at_ms: number) =>
    daysBetween(at_ms, now_ms, zone) === 0 ? clock(at_ms, zone) : dayWords(at_ms, zone);
  return (
    <section class="section">
      <h2>{words.story}</h2>
      <ul class="rows">
        {lines.map((line) => (
          <li key={line.told[0]?.root}>
            <div class="head">
              <b>{line.heading}</b>
              <span class="quiet small" title={ago(line.at_ms, now_ms, everywhere.connection)}>
                {when(line.at_ms)}
              </span>
            </div>
            {line.parts.map((part) => (
              <p key={part}>{part}</p>
            ))}
            {line.told[0]?.entry.kind === "set" && <p>{batchesIn(line.told[0].entry, totals)}</p>}
          </li>
        ))}
      </ul>
      <div class="acts">
        <a class="press plain" href="/book">
          {words.whole}
        </a>
      </div>
    </section>
  );
}
