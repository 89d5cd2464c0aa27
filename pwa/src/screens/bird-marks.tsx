// What one bird wears, each mark that was put on later taken back with one tap.

import { capital } from "../app/words/capital.ts";
import { marks as words } from "../app/words/marks.ts";
import { marksOfBirds } from "../book/marks-of-birds.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { patternOf } from "../trade/marks.ts";
import { markInWords } from "./marks-worn.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { dayWords } from "./told-time.ts";

export function BirdMarks({ bird, ring }: { bird: string; ring: string }) {
  const totals = standing.value;
  const marks = marksOfBirds(totals).get(bird) ?? [];
  return (
    <Section title={words.bird.wears}>
      {marks.length === 0 && <p class="quiet">{words.bird.none}</p>}
      <ul class="rows">
        {marks.map((mark) => {
          const what = capital(markInWords(patternOf(mark.webs), mark.tag, ring));
          return (
            <li key={`${mark.entry} ${what}`}>
              <p>
                {mark.first
                  ? words.bird.first(what)
                  : words.bird.later(what, dayWords(mark.atMs, totals.keeper.zone))}
              </p>
              {!mark.first && (
                <div class="acts">
                  <Press kind="plain" name={`${words.undo}: ${what}`} onPress={() => void undo(mark.entry)}>
                    {words.undo}
                  </Press>
                </div>
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
