// Birds to choose from, any number of them: those of the family first, the others when asked for.
import type { OneBird } from "../book/birds.ts";
import { birdId } from "../book/birds.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";

interface PenBirdsProps {
  readonly label: string;
  readonly others: (n: number) => string;
  readonly birds: readonly OneBird[];
  readonly family: string;
  readonly chosen: readonly string[];
  readonly onChoose: (chosen: string[]) => void;
}

export function PenBirds({ label, others, birds, family, chosen, onChoose }: PenBirdsProps) {
  const totals = standing.value;
  const ids = chosen.map((bird) => birdId(totals, bird));
  const isOwn = ({ body, id }: OneBird) =>
    ids.includes(id) || (body.family != null && (totals.rootOf.get(body.family) ?? body.family) === family);
  const sorted = [...birds].sort((a, b) => a.label.localeCompare(b.label));
  const own = sorted.filter(isOwn);
  const rest = sorted.filter((bird) => !isOwn(bird));
  const toggles = (some: readonly OneBird[]) => (
    <fieldset class="choice" aria-label={label}>
      {some.map(({ id, label: name }) => (
        <Press
          key={id}
          role="switch"
          checked={ids.includes(id)}
          onPress={() =>
            onChoose(ids.includes(id) ? chosen.filter((_, at) => ids[at] !== id) : [...chosen, id])
          }
        >
          {name}
        </Press>
      ))}
    </fieldset>
  );
  return (
    <div class="field">
      <span class="label" aria-hidden="true">
        {label}
      </span>
      {toggles(own)}
      {rest.length > 0 && (
        <details>
          <summary>{others(rest.length)}</summary>
          {toggles(rest)}
        </details>
      )}
    </div>
  );
}
