// A lost or outgrown mark of one bird: the new one is in its place, or beside it.
import { marks as words } from "../app/words/marks.ts";
import { marksOfBirds } from "../book/marks-of-birds.ts";
import type { MarkView } from "./mark-view.ts";
import { markInWords } from "./marks-worn.tsx";
import { SelectField } from "./parts/select-field.tsx";

interface MarkInsteadProps {
  readonly view: MarkView;
  readonly ring: string;
  /** The entry that tells of the mark that is gone; "" where none is. */
  readonly value: string;
  readonly onChoose: (entry: string) => void;
}

export function MarkInstead({ view, ring, value, onChoose }: MarkInsteadProps) {
  const marks = marksOfBirds(view.standing).get(view.bird?.id ?? "") ?? [];
  // All rings a bird was written down with go together: they are one entry.
  const entries = [...new Set(marks.flatMap((mark) => (mark.tag ? [mark.entry] : [])))];
  if (entries.length === 0) return null;
  const told = (entry: string) =>
    marks
      .filter((mark) => mark.entry === entry && mark.tag)
      .map((mark) => markInWords([], mark.tag, ring))
      .join("; ");
  return (
    <SelectField
      label={words.bird.instead}
      value={value}
      options={[
        { value: "", text: words.bird.beside },
        ...entries.map((entry) => ({ value: entry, text: words.bird.insteadOf(told(entry)) })),
      ]}
      onChoose={onChoose}
    />
  );
}
