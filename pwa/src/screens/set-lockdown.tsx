// The day turning stops: the species' own, changed where a keeper knows better.
import { everywhere } from "../app/words/everywhere.ts";
import { setEggs as words } from "../app/words/set.ts";
import { Stepper } from "./parts/stepper.tsx";

const WHERE_UNKNOWN = 18;

interface LockdownDayProps {
  /** The species' own day; null for a species the tables do not know. */
  readonly usual: number | null;
  readonly day: number | null;
  readonly onChange: (day: number | null) => void;
}

export function LockdownDay({ usual, day, onChange }: LockdownDayProps) {
  return (
    <details>
      <summary>
        {words.lockdown} {day ?? usual ?? "–"}
      </summary>
      <p class="quiet">{usual === null ? words.unknownSpecies : words.lockdownUsual(usual)}</p>
      <Stepper
        label={words.lockdown}
        value={day ?? usual ?? WHERE_UNKNOWN}
        least={1}
        most={60}
        onChange={(chosen) => onChange(chosen === usual ? null : chosen)}
        words={everywhere}
      />
    </details>
  );
}
