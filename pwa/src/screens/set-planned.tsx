// Whether the eggs that are being set are those of a plan: then it asks for them no more.
import { planned as words } from "../app/words/plan.ts";
import type { Planned } from "../book/chores-plans.ts";
import { Choice } from "./parts/choice.tsx";
import { planTold } from "./plan-kept.tsx";

interface SetPlannedProps {
  readonly plan: Planned;
  readonly isIt: boolean;
  readonly onChoose: (isIt: boolean) => void;
}

const ANSWERS = ["yes", "no"] as const;

export function SetPlanned({ plan, isIt, onChoose }: SetPlannedProps) {
  return (
    <section class="section">
      <p>{planTold(plan)}</p>
      <Choice
        label={words.isIt}
        value={isIt ? "yes" : "no"}
        options={ANSWERS.map((value) => ({ value, text: words[value] }))}
        onChoose={(value) => onChoose(value === "yes")}
      />
    </section>
  );
}
