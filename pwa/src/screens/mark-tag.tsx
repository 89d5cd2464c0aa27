// A ring, wing tag, web tag or chip: colour and leg for a whole batch, a number for one bird.
import { marks as words } from "../app/words/marks.ts";
import type { Mark } from "../book/marks-of-lots.ts";
import { ownWords } from "../book/own-words.ts";
import { bandMm, RING_COLOURS } from "../trade/marking.ts";
import { LEGS, type Leg, nextFreeRing } from "../trade/marks.ts";
import { type MarkView, ringsWorn, sameNumber, sameTag, whoseWords } from "./mark-view.ts";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

export interface TagChoice {
  readonly colour: string;
  readonly leg: Leg;
  readonly text: string;
}

/** A chick's and two grown birds' sizes, as an example of what the numbers mean. */
const SIZES = [4, 9, 12].map((size) => words.ring.size(size, bandMm(size).toFixed(1))).join(", ");

interface MarkTagProps {
  readonly view: MarkView;
  readonly kind: "ring" | "wing" | "web" | "chip";
  readonly ring: string;
  readonly tag: TagChoice;
  readonly built: NonNullable<Mark["tag"]> | null;
  readonly onTag: (tag: TagChoice) => void;
}

export function MarkTag({ view, kind, ring, tag, built, onTag }: MarkTagProps) {
  const free = nextFreeRing(RING_COLOURS, ringsWorn(view.beside));
  const isFree = free === null || (free.colour === tag.colour && free.leg === tag.leg);
  const same = built ? sameTag(view.beside, built, view.family) : [];
  const twice = built ? sameNumber(view.worn, built) : [];
  return (
    <>
      {kind === "ring" && (
        <>
          <SelectField
            label={words.ring.colour}
            value={tag.colour}
            options={[
              { value: "", text: "–" },
              ...RING_COLOURS.map((value) => ({ value, text: words.ring.colours[value] ?? value })),
            ]}
            onChoose={(colour) => onTag({ ...tag, colour })}
          />
          <Choice
            label={words.ring.leg}
            value={tag.leg}
            options={LEGS.map((value) => ({ value, text: words.ring.legs[value] }))}
            onChoose={(leg) => onTag({ ...tag, leg })}
          />
          {free === null && <p class="section-note">{words.ring.noneFree}</p>}
          {free !== null && !isFree && (
            <div class="acts">
              <Press kind="plain" onPress={() => onTag({ ...tag, ...free })}>
                {words.ring.next(free.colour, free.leg)}
              </Press>
            </div>
          )}
        </>
      )}
      <TextField
        label={kind === "ring" ? words.ring.text : words.ring.textOne}
        value={tag.text}
        most={20}
        capitals="characters"
        onType={(text) => onTag({ ...tag, text })}
        hint={
          tag.text.trim()
            ? words.ring.one
            : kind === "ring"
              ? view.bird
                ? words.bird.textHint
                : words.ring.textHint
              : words.ring.one
        }
      />
      {same.length > 0 && (
        <Notice tone="watch" live>
          <p>{words.ring.heldBy(whoseWords(view.standing, same), ownWords(view.standing.keeper.words))}</p>
        </Notice>
      )}
      {twice.length > 0 && (
        <Notice tone="watch" live>
          <p>{words.ring.twice(whoseWords(view.standing, twice))}</p>
        </Notice>
      )}
      {built === null && <p class="quiet section-note">{words.ring.need}</p>}
      {kind === "ring" && (
        <p class="quiet section-note">
          {words.ring.tight(ring)} {words.ring.numbered(ring, SIZES)}
        </p>
      )}
    </>
  );
}
