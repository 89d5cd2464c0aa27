// What was written of one bird, the latest first: comings, goings, pens, marks, treatments, notes.
import { coming, leaving, bird as words } from "../app/words/birds.ts";
import { judging } from "../app/words/judging.ts";
import { causeWords } from "../app/words/losses.ts";
import { tagInWords, websInWords } from "../app/words/marks.ts";
import { treating } from "../app/words/treating.ts";
import { birdId, type OneBird } from "../book/birds.ts";
import type { Bodies } from "../book/bodies.generated.ts";
import { totalOf } from "../book/judged.ts";
import { heldMs } from "../book/moments.ts";
import type { Standing } from "../book/standing.ts";
import { treatmentsOfBird } from "../book/treatments.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { patternOf } from "../trade/marks.ts";
import { ringWord } from "./bird-view.ts";
import { placeName } from "./names.ts";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { dayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

interface BirdEvent {
  readonly entry: string;
  readonly on: string;
  readonly text: string;
}

export function BirdEvents({ bird }: { bird: OneBird }) {
  const events = eventsOf(standing.value, bird);
  return (
    <Section title={words.events}>
      <ul class="rows">
        {events.map(({ entry, on, text }) => (
          <li key={`${entry} ${text}`} class="due-row">
            <span class="when">{dayTold(on)}</span>
            <span class="body">{text}</span>
            {entry !== bird.id && (
              <Press kind="bare" name={`${leaving.undo}: ${text}`} onPress={() => void undo(entry)}>
                {leaving.undo}
              </Press>
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}

/** The latest first; of one day, in the order of writing. */
function eventsOf(totals: Standing, bird: OneBird): BirdEvent[] {
  const { heads, keeper } = totals;
  const isIt = (name: string | null | undefined) => Boolean(name) && birdId(totals, name ?? "") === bird.id;
  const dayOf = (atMs: number) => dayKey(heldMs(atMs), keeper.zone);
  const found: BirdEvent[] = [];
  const add = (entry: string, on: string, text: string) => found.push({ entry, on: on.slice(0, 10), text });
  for (const { root, atMs } of heads.bird ?? []) if (isIt(root)) add(root, dayOf(atMs), words.wrote);
  for (const { root, body } of heads.came ?? [])
    if (isIt(body.bird)) add(root, body.on, words.came(coming.hows[body.how], body.from ?? ""));
  for (const { root, body } of heads.left ?? []) if (isIt(body.bird)) add(root, body.on, leftWords(body));
  for (const { root, atMs, body } of heads.marked ?? [])
    if (isIt(body.bird)) add(root, body.on ?? dayOf(atMs), markWords(totals, body));
  for (const { root, body } of heads.penned ?? [])
    if ([...body.sires, ...body.dams].some((one) => isIt(one.bird)))
      add(root, body.since, words.penned(body.place ? placeName(totals, body.place) : ""));
  for (const { root, body } of heads.scored ?? [])
    if (isIt(body.bird)) add(root, body.on, judgedWords(body.scores));
  for (const { root, atMs, body } of heads.note ?? [])
    if (isIt(body.about)) add(root, dayOf(atMs), body.text);
  for (const { entry, body } of treatmentsOfBird(totals, bird))
    add(
      entry,
      body.from,
      `${body.product}: ${treating.given(dayTold(body.from.slice(0, 10)), body.until ? dayTold(body.until.slice(0, 10)) : "")}`,
    );
  return found.sort((a, b) => (a.on === b.on ? (a.entry < b.entry ? 1 : -1) : a.on < b.on ? 1 : -1));
}

function judgedWords(scores: Bodies["scored"]["scores"]): string {
  const faultsLast = Object.entries(scores).sort(([, a], [, b]) => Number(a < 0) - Number(b < 0));
  const parts = faultsLast.map(([trait, points]) => judging.part(trait, String(points)));
  return judging.scored(String(totalOf(scores)), parts.join(", "));
}

function leftWords({ how, to, cause }: Bodies["left"]): string {
  const why = cause ? causeWords(cause) : null;
  return [leaving.hows[how], to, why].filter(Boolean).join(", ");
}

function markWords(totals: Standing, { tag, webs, recheck }: Bodies["marked"]): string {
  if (recheck) return words.looked;
  const pattern = patternOf(webs ?? []);
  const what = [
    tag ? tagInWords(tag, ringWord(totals)) : null,
    pattern.length > 0 ? websInWords(pattern) : null,
  ];
  return words.marked(what.filter(Boolean).join(", "));
}
