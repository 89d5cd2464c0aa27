// A bird is judged by points: parts that are given some, and faults that cut some off, added up while typing.
import { useState } from "preact/hooks";
import { judging as words } from "../app/words/judging.ts";
import { lastCard } from "../book/judged.ts";
import { record } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { judged, type Line, noLine } from "./judged-lines.ts";
import { FormEnd } from "./parts/form-end.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";

interface JudgeProps {
  readonly bird: string;
  readonly label: string;
  readonly today: string;
  readonly onDone: () => void;
}

export function BirdJudge({ bird, label, today, onDone }: JudgeProps) {
  const [given, setGiven] = useState<readonly Line[]>(() => {
    const card = lastCard(standing.value);
    return card.length > 0 ? card.map((trait) => ({ trait, points: "" })) : [noLine()];
  });
  const [cut, setCut] = useState<readonly Line[]>([]);
  const [asked, setAsked] = useState(false);
  const { scores, total, faults, empty } = judged(given, cut);
  const save = () => {
    setAsked(true);
    if (empty || faults.size > 0) return;
    void record("scored", { bird, on: today, scores });
    onDone();
  };
  const show = { faults: asked ? faults : new Map<Line, string>(), onEnter: save };
  return (
    <section class="section" aria-label={words.title(label)}>
      <h2>{words.title(label)}</h2>
      <p class="section-note">{words.under}</p>
      <Lines {...show} of={given} trait={words.trait} points={words.points} onChange={setGiven} />
      <Lines {...show} of={cut} trait={words.fault} points={words.cut} onChange={setCut} />
      <div class="acts">
        <Press kind="plain" onPress={() => setGiven([...given, noLine()])}>
          {words.addTrait}
        </Press>
        <Press kind="plain" onPress={() => setCut([...cut, noLine()])}>
          {words.addFault}
        </Press>
      </div>
      <p class="live-figure" role="status">
        {words.total(String(total))}
      </p>
      {asked && empty && (
        <p class="fault" role="alert">
          {words.nothing}
        </p>
      )}
      <FormEnd save={words.save} onSave={save} onCancel={onDone} />
    </section>
  );
}

interface LinesProps {
  readonly of: readonly Line[];
  readonly trait: string;
  readonly points: string;
  readonly faults: ReadonlyMap<Line, string>;
  readonly onChange: (lines: Line[]) => void;
  readonly onEnter: () => void;
}

function Lines({ of, trait, points, faults, onChange, onEnter }: LinesProps) {
  const change = (at: number, changed: Partial<Line>) =>
    onChange(of.map((line, i) => (i === at ? { ...line, ...changed } : line)));
  return (
    <>
      {of.map((line, at) => (
        <div key={at} class="pair">
          <TextField
            label={`${trait} ${at + 1}`}
            value={line.trait}
            onType={(text) => change(at, { trait: text })}
            most={40}
          />
          <TextField
            label={`${points} ${at + 1}`}
            value={line.points}
            onType={(text) => change(at, { points: text })}
            fault={faults.get(line) ?? null}
            inputMode="decimal"
            most={8}
            onEnter={onEnter}
          />
        </div>
      ))}
    </>
  );
}
