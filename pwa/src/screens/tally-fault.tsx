// Storage does not work: a count that is not kept is worse than none.
import { attention } from "../app/words/attention.ts";
import { cannotBegin } from "../app/words/tally-panels.ts";
import { type storageFault, surroundings, wake } from "../state/opening.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";

export function TallyFault({ code }: { code: NonNullable<typeof storageFault.value> }) {
  const { what, remedy } = attention.storage[code];
  return (
    <Page headline={cannotBegin.title} under={`${what} ${remedy}`}>
      <div class="acts">
        <Press kind="main" onPress={() => void wake(surroundings())}>
          {cannotBegin.again}
        </Press>
      </div>
    </Page>
  );
}
