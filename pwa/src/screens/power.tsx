// A power cut: what was published about it, how long it lasts, and putting right what was written in haste.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { status, power as words } from "../app/words/machine.ts";
import { safety } from "../app/words/safety.ts";
import type { Outage } from "../book/bodies.generated.ts";
import type { PowerCut } from "../book/power-cuts.ts";
import { undo } from "../state/actions.ts";
import { changeOutage } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { type Published, publishedOn, type Topic } from "../trade/guidance.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { candleAgainText, cutAt, endCut, lengthText } from "./power-line.tsx";
import { Dating } from "./quick-acts.tsx";
import { clock, dayWords } from "./told-time.ts";

const TOPICS: readonly Topic[] = ["power_cut", "power_cut_forced", "power_cut_still"];

export function PowerScreen({ place }: { place: string }) {
  const now_ms = useNow();
  const totals = standing.value;
  const cut = cutAt(totals, place, now_ms);
  const length = cut ? lengthText((cut.untilMs ?? now_ms) - cut.fromMs) : "";
  const title =
    cut === null
      ? words.title.none
      : cut.untilMs === null
        ? words.title.off(length)
        : words.title.was(length);
  return (
    <Page
      over={placeName(totals, place)}
      headline={title}
      under={cut ? candleAgainText(cut, totals.keeper.zone) : words.noneRemedy}
    >
      {cut?.untilMs === null && (
        <div class="acts">
          <Press kind="main" onPress={() => endCut(cut)}>
            {words.back}
          </Press>
        </div>
      )}
      <Notice tone="watch">
        <p>{words.noFlame}</p>
        <p>{safety.mains}</p>
        <p class="quiet">{safety.rule}</p>
      </Notice>
      <Instructions place={place} />
      {cut && <Settling key={cut.head.root} cut={cut} place={place} now_ms={now_ms} />}
    </Page>
  );
}

/** Both published instructions, each under the machines it speaks of. */
function Instructions({ place }: { place: string }) {
  const blows = standing.value.places.get(place)?.air;
  return (
    <section class="section">
      <h2>{words.what}</h2>
      {blows && <p>{words.own[blows]}</p>}
      {TOPICS.map((topic) => (
        <div class="each-rate" key={topic}>
          <h3>{words.says[topic as keyof typeof words.says]}</h3>
          <Said list={publishedOn(topic)} />
        </div>
      ))}
      <p class="quiet">{words.differ}</p>
    </section>
  );
}

/** The sentences of one source, and under them where they were read. */
function Said({ list }: { list: readonly Published[] }) {
  const sources = new Set(list.map((one) => words.source(one.source, status[one.status] ?? one.status)));
  return (
    <>
      {list.map((one) => (
        <p key={one.words}>{one.words}</p>
      ))}
      <p class="quiet small">{[...sources].join(" ")}</p>
    </>
  );
}

/** Since when, until when and where, said afterwards. */
function Settling({ cut, place, now_ms }: { cut: PowerCut; place: string; now_ms: number }) {
  const [changing, setChanging] = useState<"from" | "until" | null>(null);
  const [fault, setFault] = useState(false);
  const { zone } = standing.value.keeper;
  const { head } = cut;
  const change = (more: Partial<Outage>) => void changeOutage(head.id, { ...head.body, ...more });
  const when = (at_ms: number) => `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  const save = (at: Date) => {
    const [from, until] = changing === "from" ? [at.getTime(), cut.untilMs] : [cut.fromMs, at.getTime()];
    const odd = until !== null && until < from;
    setFault(odd);
    if (odd) return;
    change(changing === "from" ? { from: at.toISOString() } : { until: at.toISOString() });
    setChanging(null);
  };
  return (
    <section class="section">
      <ul class="lines">
        <li>
          <span>{words.from}</span>
          <b>{when(cut.fromMs)}</b>
        </li>
        {cut.untilMs !== null && (
          <li>
            <span>{words.until}</span>
            <b>{when(cut.untilMs)}</b>
          </li>
        )}
      </ul>
      <div class="acts">
        <Press kind="plain" expanded={changing === "from"} onPress={() => setChanging("from")}>
          {`${words.change}: ${words.from.toLowerCase()}`}
        </Press>
        <Press kind="plain" expanded={changing === "until"} onPress={() => setChanging("until")}>
          {`${words.change}: ${words.until.toLowerCase()}`}
        </Press>
      </div>
      {changing && <Dating key={changing} now_ms={now_ms} onSave={save} />}
      {fault && (
        <p class="fault" role="alert">
          {words.ended}
        </p>
      )}
      <Choice
        label={words.where}
        value={cut.everywhere ? "everywhere" : "here"}
        options={[
          { value: "everywhere", text: words.everywhere },
          { value: "here", text: words.onlyHere(placeName(standing.value, place)) },
        ]}
        onChoose={(where) => {
          const { places: _, ...rest } = head.body;
          void changeOutage(head.id, where === "here" ? { ...rest, places: [place] } : rest);
        }}
      />
      <div class="acts">
        {cut.untilMs !== null && (
          <Press kind="plain" onPress={() => void changeOutage(head.id, { ...head.body, until: null })}>
            {words.notBack}
          </Press>
        )}
        <Press kind="plain" onPress={() => void undo(head.root)}>
          {words.undo}
        </Press>
        <a class="press plain" href="/rooms">
          {everywhere.done}
        </a>
      </div>
    </section>
  );
}
