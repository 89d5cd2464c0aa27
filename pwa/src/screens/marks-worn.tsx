// What this batch was given so far, each mark taken back with one tap; and what others of the breed wear.
import { tagInWords, websInWords, marks as words } from "../app/words/marks.ts";
import { birdsOf } from "../book/birds.ts";
import { byCodePoint } from "../book/code-points.ts";
import type { Worn } from "../book/marks-in-use.ts";
import type { Mark } from "../book/marks-of-lots.ts";
import { ownWords } from "../book/own-words.ts";
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
              <div class="row-act">
                <p>{words.wornLine(n, what, dayWords(mark.atMs, standing.keeper.zone))}</p>
                <Press
                  kind="bare"
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
        <a class="press plain" href={`/again/${view.lot?.id}`}>
          {words.again.link}
        </a>
      </div>
    </section>
  );
}

export function MarksInUse({ view, ring }: { view: MarkView; ring: string }) {
  const { beside, standing } = view;
  const [low = 0, high = 0] = FILLED_RINGS_KEPT;
  const birds = beside.filter((one) => one.bird !== null);
  return (
    <section class="section">
      <h2>{words.inUse}</h2>
      {beside.length === 0 && <p class="quiet">{words.nothingInUse(ownWords(standing.keeper.words))}</p>}
      <ul class="lines">
        {beside
          .filter((one) => one.bird === null)
          .map((one) => (
            <li key={`${one.lot} ${JSON.stringify([one.webs, one.tag])}`}>
              {words.inUseLine(whoseWords(standing, [one]), markInWords(one.webs, one.tag, ring), one.n)}
            </li>
          ))}
      </ul>
      {birds.length > 0 && <SingleBirds view={view} birds={birds} ring={ring} />}
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

interface SingleBirdsProps {
  readonly view: MarkView;
  readonly birds: readonly Worn[];
  readonly ring: string;
}

/** A flock has many of them, and each wears its own: they are folded up, with the way to mark each anew. */
function SingleBirds({ view, birds, ring }: SingleBirdsProps) {
  const { standing } = view;
  const known = birdsOf(standing, null);
  const lines = birds.map((one) => ({
    id: one.bird ?? "",
    name: known.get(one.bird ?? "")?.label ?? "",
    whose: whoseWords(standing, [one]),
    what: markInWords(one.webs, one.tag, ring),
  }));
  lines.sort((a, b) => byCodePoint(a.whose, b.whose) || byCodePoint(a.name, b.name));
  return (
    <details>
      <summary>{words.bird.single(new Set(birds.map((one) => one.bird)).size)}</summary>
      <ul class="lines">
        {lines.map(({ id, name, whose, what }) => (
          <li key={`${id} ${what}`}>
            <a class="press bare" href={`/mark/${id}`} aria-label={words.bird.markAgain(name)}>
              {name}
            </a>
            <span>{words.bird.line(whose, what)}</span>
          </li>
        ))}
      </ul>
    </details>
  );
}
