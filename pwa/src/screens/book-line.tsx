// One line of the book. Several taps of a tally open into each of them; each can be put right.

import { useState } from "preact/hooks";
import { book as words } from "../app/words/book.ts";
import { everywhere } from "../app/words/everywhere.ts";
import type { Looked, Moved } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { ownWords } from "../book/own-words.ts";
import { undo } from "../state/actions.ts";
import { held } from "../state/held.ts";
import { amend, bringBack } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import type { StoryLine, Told } from "./story.ts";
import { answersIn, whoseIn } from "./told-entry.ts";
import { batchesIn, headingOf, writerOf } from "./told-heading.ts";
import { clock } from "./told-time.ts";

interface BookLineProps {
  readonly line: StoryLine;
  readonly own: ReadonlySet<string>;
}

export function BookLine({ line, own }: BookLineProps) {
  const [open, setOpen] = useState(false);
  const { zone } = standing.value.keeper;
  const [first] = line.told;
  if (!first) return null;
  const many = line.told.length > 1;
  const { n, onlyHere } = held.value;
  // Where nothing is on a server the line on top says so; repeating it on every line tells nothing.
  const isHere = onlyHere.size < n && line.told.some(({ entry }) => onlyHere.has(entry.id));
  const writers = [...new Set(line.told.map(({ entry }) => writerOf(entry.device, own)))].filter(Boolean);
  const notes = [
    many ? words.taps(line.told.length) : null,
    first.back ? words.takenBack : null,
    !many && first.changed ? words.changed : null,
    ...writers,
    isHere ? words.onlyHere : null,
  ].filter(Boolean);
  const detail = first.entry.kind === "set" ? batchesIn(first.entry, standing.value) : line.parts.join("; ");
  return (
    <li class={first.back ? "entry back" : "entry"}>
      <Press kind="bare" expanded={open} onPress={() => setOpen(!open)}>
        <span class="time">{clock(line.at_ms, zone)}</span>
        <span>
          <b class="what">{line.heading}</b>
          {detail && <span class="line">{detail}</span>}
          {notes.length > 0 && <span class="quiet small line">{notes.join(", ")}</span>}
        </span>
        <span class="sign" aria-hidden="true">
          {open ? "−" : "+"}
        </span>
      </Press>
      {open && (
        <div class="opened">
          {many ? <Each line={line} /> : <Acts told={first} />}
          {line.setting && (
            <a class="press bare" href={`/setting/${line.setting}`}>
              {words.setting(ownWords(standing.value.keeper.words))}
            </a>
          )}
        </div>
      )}
    </li>
  );
}

/** Every tap of a line by itself, the last one first. */
function Each({ line }: { line: StoryLine }) {
  const { zone } = standing.value.keeper;
  return (
    <ul class="each">
      {[...line.told].reverse().map((told) => (
        <li key={told.root}>
          <p>
            <span class="quiet">{clock(told.at_ms, zone)}</span>{" "}
            {`${whoseIn(told.entry, standing.value)}: ${answersIn(told.entry)}`}
          </p>
          <Acts told={told} />
        </li>
      ))}
    </ul>
  );
}

function Acts({ told }: { told: Told }) {
  const [amending, setAmending] = useState(false);
  const name = `${headingOf(told.entry, standing.value)} ${answersIn(told.entry)}`.trim();
  if (told.back) {
    return (
      <div class="acts">
        <Press kind="plain" name={`${words.bringBack}: ${name}`} onPress={() => void bringBack(told.root)}>
          {words.bringBack}
        </Press>
      </div>
    );
  }
  const count = countIn(told.entry);
  if (amending && count !== null) {
    return <Amend told={told} count={count} onClose={() => setAmending(false)} />;
  }
  return (
    <div class="acts">
      {count !== null && (
        <Press kind="plain" name={`${words.amend}: ${name}`} onPress={() => setAmending(true)}>
          {words.amend}
        </Press>
      )}
      <Press kind="plain" name={`${words.takeBack}: ${name}`} onPress={() => void undo(told.root)}>
        {words.takeBack}
      </Press>
    </div>
  );
}

function Amend({ told, count, onClose }: { told: Told; count: number; onClose: () => void }) {
  const [n, setN] = useState(count);
  const save = () => {
    const { entry } = told;
    if (entry.kind === "looked") void amend(told.root, "looked", lookedWith(entry, n));
    else void amend(told.root, "moved", movedWith(entry, n));
    onClose();
  };
  return (
    <fieldset>
      <legend>{words.amendTitle}</legend>
      <Stepper
        label={words.amendTitle}
        value={n}
        least={1}
        most={20_000}
        onChange={setN}
        words={everywhere}
      />
      <FormEnd save={words.amendSave} off={n === count} onSave={save} onCancel={onClose} />
    </fieldset>
  );
}

const SEEN = ["live", "unsure", "pipped"] as const;

/** The one number an entry counts, or null where it counts several or none. */
function countIn(entry: Entry): number | null {
  if (entry.kind === "looked") {
    const body = entry.body as unknown as Looked;
    const counts = SEEN.map((sees) => body[sees] ?? 0).filter((n) => n > 0);
    return counts.length === 1 ? (counts[0] ?? null) : null;
  }
  if (entry.kind !== "moved") return null;
  const moves = (entry.body as unknown as Moved).moves;
  return Array.isArray(moves) && moves.length === 1 ? (moves[0]?.n ?? null) : null;
}

function lookedWith(entry: Entry, n: number): Looked {
  const body = entry.body as unknown as Looked;
  const sees = SEEN.find((one) => (body[one] ?? 0) > 0) ?? "live";
  return { ...body, [sees]: n };
}

function movedWith(entry: Entry, n: number): Moved {
  const body = entry.body as unknown as Moved;
  return { ...body, moves: body.moves.map((move) => ({ ...move, n })) } as Moved;
}
