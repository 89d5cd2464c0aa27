// The two feet: webs are tapped as they are seen, and what they say is told in words, with who else says it.
import { marks as words } from "../app/words/marks.ts";
import { patternsIn } from "../book/marks-in-use.ts";
import { ownWords } from "../book/own-words.ts";
import { binarySum, nextFree, type Pattern, patternKey, patternOf, risks } from "../trade/marks.ts";
import { type MarkView, wearersOf, whoseWords } from "./mark-view.ts";
import { Choice } from "./parts/choice.tsx";
import { Feet } from "./parts/foot.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";

interface MarkWebsProps {
  readonly view: MarkView;
  readonly webs: Pattern;
  readonly soles: boolean;
  readonly onWebs: (webs: Pattern) => void;
  readonly onSoles: (soles: boolean) => void;
}

export function MarkWebs({ view, webs, soles, onWebs, onSoles }: MarkWebsProps) {
  const others = view.beside.filter((one) => one.family !== view.family);
  const free = nextFree(patternsIn(others));
  const isFree = free !== null && patternKey(free) === patternKey(webs);
  return (
    <>
      <Choice
        label={words.view.label}
        value={soles ? "soles" : "behind"}
        options={(["behind", "soles"] as const).map((value) => ({ value, text: words.view[value] }))}
        onChoose={(value) => onSoles(value === "soles")}
      />
      <p class="quiet section-note">{soles ? words.viewSaid.soles : words.viewSaid.behind}</p>
      <Feet
        punched={webs}
        mirrored={soles}
        onTap={(web) =>
          onWebs(patternOf(webs.includes(web) ? webs.filter((one) => one !== web) : [...webs, web]))
        }
        words={words}
      />
      <Said view={view} webs={webs} />
      {!isFree && (
        <div class="row-act section-note">
          <p>{free ? words.pattern.next(free) : words.pattern.noneFree}</p>
          {free && (
            <Press
              kind="plain"
              name={`${words.pattern.use}: ${words.pattern.next(free)}`}
              onPress={() => onWebs(free)}
            >
              {words.pattern.use}
            </Press>
          )}
        </div>
      )}
    </>
  );
}

/** The pattern in words, what the keeper calls it, who wears it, and what one healed web would make of it. */
function Said({ view, webs }: { view: MarkView; webs: Pattern }) {
  const { standing, family } = view;
  if (webs.length === 0) {
    return (
      <div role="status" class="section-note">
        <p>
          <b>{words.pattern.none}</b>
        </p>
        <p class="quiet">{words.pattern.noneHint}</p>
      </div>
    );
  }
  const others = view.beside.filter((one) => one.family !== family);
  const holders = wearersOf(others, webs);
  const inUse = patternsIn(others);
  const found = risks(webs, inUse);
  const own = ownWords(standing.keeper.words);
  const label = standing.keeper.mark_key?.[patternKey(webs)];
  const odd = [...inUse, webs].filter((one) => one.length % 2 === 1);
  const oddOwners = whoseWords(
    standing,
    others.filter((one) => one.webs.length % 2 === 1),
  );
  return (
    <div role="status" class="section-note">
      <p>
        <b>{words.pattern.told(webs)}.</b> {label && words.pattern.called(label)}{" "}
        {holders.length === 0 && words.pattern.free}{" "}
        {holders.length + found.length === 0 && words.pattern.safe(own)}
      </p>
      {(holders.length > 0 || found.length > 0) && (
        <Notice tone="watch">
          <p>
            <b>{words.risk.title}</b>
          </p>
          {holders.length > 0 && <p>{words.pattern.heldBy(whoseWords(standing, holders))}</p>}
          {found.map(({ web, heals, readsAs }) => (
            <p key={web}>
              {readsAs.length === 0
                ? words.risk.unmarked(web)
                : patternKey(heals) === patternKey(webs)
                  ? words.risk.own(web, whoseWords(standing, wearersOf(others, readsAs)))
                  : words.risk.other(web, whoseWords(standing, wearersOf(others, heals)))}
            </p>
          ))}
        </Notice>
      )}
      <p class="quiet section-note">
        {webs.length % 2 === 1
          ? words.parity.odd
          : odd.length > 0
            ? words.parity.broken(oddOwners, own)
            : words.parity.all(own)}
      </p>
    </div>
  );
}

/** Labels for all patterns by the plain sum, as the keeper's key is kept. */
export function sumKey(all: readonly Pattern[]): Record<string, string> {
  return Object.fromEntries(
    all.filter((one) => one.length > 0).map((one) => [patternKey(one), String(binarySum(one))]),
  );
}
