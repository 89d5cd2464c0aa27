// Asked before the first mark, on each phone: the law and the pain of it. The answer only changes what is offered.
import { marks as words } from "../app/words/marks.ts";
import { choose, webs } from "../state/choices.ts";
import { LAWS } from "../trade/marking.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";

export function MarkLaw() {
  const { law } = words;
  const answer = webs.value;
  if (answer !== "unasked") {
    return (
      <section class="section" aria-label={law.label}>
        {answer === "no" && <p class="quiet">{law.noted}</p>}
        <details>
          <summary>{law.title}</summary>
          <Caution />
          <div class="acts">
            <Press kind="plain" onPress={() => choose("webs", "unasked")}>
              {law.change}
            </Press>
          </div>
        </details>
      </section>
    );
  }
  return (
    <section class="section" aria-label={law.label}>
      <h2>{law.title}</h2>
      <Caution />
      <div class="acts mark-keys">
        <Press kind="firm" onPress={() => choose("webs", "yes")}>
          {law.yes}
        </Press>
        <Press kind="firm" onPress={() => choose("webs", "no")}>
          {law.no}
        </Press>
      </div>
    </section>
  );
}

function Caution() {
  const { law } = words;
  return (
    <Notice tone="watch">
      <p>{law.text}</p>
      <p>{law.rule}</p>
      <p class="quiet small">{law.source(LAWS.join("; "))}</p>
    </Notice>
  );
}
