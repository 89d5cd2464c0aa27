// What this batch was given so far, each mark taken back with one tap; and what others of the breed wear.
import { tagInWords, websInWords, marks as words } from "../app/words/marks.ts";
import type { Mark } from "../book/marks-of-lots.ts";
import { undo } from "../state/actions.ts";
import { FILLED_RINGS_KEPT, PRACTICE } from "../trade/marking.ts";
import type { Pattern } from "../trade/marks.ts";
import { type MarkView, whoseWords } from "./mark-view.ts";
import { Press } from "./parts/press.tsx";
import { dayWords } from "./told-time.ts";

export function markInWords(webs: Pattern, tag: Mark["tag"], ring: string): string {
  return [webs.length > 0 ? websInWords(webs) : null, tag ? tagInWords(tag, ring) : null]
    .filter(Boolean)
    .join("; ");
}

export function MarksWorn({ view, ring }: { view: MarkView; ring: string }) {
  const { marks, standing } = view;
  const given = marks.filter((mark) => !mark.recheck);
  if (given.length === 0) return null;
  return (
    <section class="section">
      <h2>{words.wornHere}</h2>
      <ul class="rows">
        {given.map((mark) => {
          const what = markInWords(mark.webs, mark.tag, ring);
          const n = mark.n === null ? words.all : String(mark.n);
          return (
            <li key={mark.entry}>
              <p>{words.wornLine(n, what, dayWords(mark.atMs, standing.keeper.zone))}</p>
              <div class="acts">
                <Press
                  kind="plain"
                  name={`${words.undo}: ${n}, ${what}`}
                  onPress={() => void undo(mark.entry)}
                >
                  {words.undo}
                </Press>
              </div>
            </li>
          );
        })}
      </ul>
      <div class="acts">
        <a class="press plain" href={`/again/${view.lot.id}`}>
          {words.again.link}
        </a>
      </div>
    </section>
  );
}

export function MarksInUse({ view, ring }: { view: MarkView; ring: string }) {
  const { beside, standing } = view;
  const [low = 0, high = 0] = FILLED_RINGS_KEPT;
  return (
    <section class="section">
      <h2>{words.inUse}</h2>
      {beside.length === 0 && <p class="quiet">{words.nothingInUse}</p>}
      <ul class="lines">
        {beside.map((one) => (
          <li key={`${one.lot} ${one.bird} ${JSON.stringify([one.webs, one.tag])}`}>
            {words.inUseLine(whoseWords(standing, [one]), markInWords(one.webs, one.tag, ring), one.n)}
          </li>
        ))}
      </ul>
      <details>
        <summary>{words.practice}</summary>
        {PRACTICE.map((value) => (
          <p key={value}>{value}</p>
        ))}
        <p class="quiet">{words.figures(low, high)}</p>
      </details>
    </section>
  );
}
