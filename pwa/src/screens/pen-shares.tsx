// The parts cocks and hens of a pen have in its eggs, typed as percent.
import { pens as words } from "../app/words/pens.ts";
import { TextField } from "./parts/text-field.tsx";
import { type PenDraft, type PenFaults, percent, SIDES, type Side } from "./pen-draft.ts";

interface PenSharesProps {
  readonly draft: PenDraft;
  readonly faults: PenFaults | null;
  readonly sideWords: Readonly<Record<Side, string>>;
  readonly labelOf: (bird: string) => string;
  readonly onType: (bird: string, text: string) => void;
}

export function PenShares({ draft, faults, sideWords, labelOf, onType }: PenSharesProps) {
  return (
    <>
      {SIDES.filter((side) => draft[side].length > 1).map((side) => {
        const sum = faults?.sum[side];
        return (
          <div key={side}>
            <div class="pair">
              {draft[side].map((bird) => (
                <TextField
                  key={bird}
                  label={words.form.shareOf(labelOf(bird))}
                  value={draft.shares[bird] ?? ""}
                  onType={(text) => onType(bird, text)}
                  inputMode="decimal"
                  most={6}
                  fault={faults?.unread.has(bird) ? words.form.noNumber : null}
                />
              ))}
            </div>
            {sum !== undefined && (
              <p class="fault" role="alert">
                {words.form.sum(sideWords[side], percent(sum / 100))}
              </p>
            )}
          </div>
        );
      })}
    </>
  );
}
