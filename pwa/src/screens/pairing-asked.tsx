// Birds and pairs a keeper names for the plan: to be used, to share a pen, never to meet.
import { useState } from "preact/hooks";
import { capital } from "../app/words/capital.ts";
import { pairing as words } from "../app/words/pairing.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import type { PairingReport } from "../state/pairing-report.ts";
import { standing } from "../state/standing.ts";
import { Choice } from "./parts/choice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";

const WAYS = ["use", "together", "never"] as const;
type Way = (typeof WAYS)[number];

/** One thing that was named; text: as the server is asked, a bird or cock:hen. */
interface Named {
  readonly field: "must" | "never";
  readonly text: string;
}

/** Birds, and pairs as cock:hen, between commas: as the server is asked. */
export interface AskedWishes {
  readonly must: string | null;
  readonly never: string | null;
}

interface PairingAskedProps {
  readonly report: PairingReport;
  readonly wishes: AskedWishes;
  readonly onWish: (change: Partial<AskedWishes>) => void;
}

export function PairingAsked({ report, wishes, onWish }: PairingAskedProps) {
  const [way, setWay] = useState<Way>("never");
  const of = (sex: string) => report.birds.filter((bird) => bird.sex === sex);
  const [cocks, hens] = [of("male"), of("female")];
  const [cock, setCock] = useState("");
  const [hen, setHen] = useState("");
  const { cock: term } = termsOf(regionOf(standing.value.keeper.region));
  const labels = new Map(report.birds.map((bird) => [bird.bird, bird.label]));
  const named = (["must", "never"] as const).flatMap((field) =>
    listed(wishes[field]).map((text): Named => ({ field, text })),
  );
  const told = ({ field, text }: Named) => {
    const [one = "", other] = text.split(":").map((id) => labels.get(id) ?? words.goneBird);
    if (other === undefined) return words.asked.use(one);
    return field === "must" ? words.asked.together(one, other) : words.asked.never(one, other);
  };
  const add = (...texts: string[]) => {
    const field = way === "never" ? "never" : "must";
    onWish({ [field]: [...new Set([...listed(wishes[field]), ...texts])].join() });
    setCock("");
    setHen("");
  };
  const isPair = way !== "use";
  const ready = isPair ? cock !== "" && hen !== "" : cock !== "" || hen !== "";
  const select = (label: string, birds: typeof cocks, value: string, choose: (id: string) => void) => (
    <SelectField
      label={label}
      value={value}
      options={[
        { value: "", text: words.asked.choose },
        ...birds.map((bird) => ({ value: bird.bird, text: bird.label })),
      ]}
      onChoose={choose}
    />
  );
  return (
    <details>
      <summary>{words.asked.title(named.length)}</summary>
      <ul class="rows">
        {named.map((one) => (
          <li key={`${one.field} ${one.text}`} class="head">
            <span>{told(one)}</span>
            <Press
              kind="bare"
              name={`${words.asked.remove}: ${told(one)}`}
              onPress={() =>
                onWish({
                  [one.field]:
                    listed(wishes[one.field])
                      .filter((text) => text !== one.text)
                      .join() || null,
                })
              }
            >
              {words.asked.remove}
            </Press>
          </li>
        ))}
      </ul>
      <Choice
        label={words.asked.way}
        value={way}
        options={WAYS.map((value) => ({ value, text: words.asked.ways[value] }))}
        onChoose={setWay}
      />
      <div class="pair">
        {select(capital(term), cocks, cock, setCock)}
        {select(words.hen, hens, hen, setHen)}
      </div>
      <div class="acts">
        <Press
          kind="plain"
          off={!ready}
          onPress={() => ready && (isPair ? add(`${cock}:${hen}`) : add(...[cock, hen].filter(Boolean)))}
        >
          {words.asked.add}
        </Press>
      </div>
      <p class="quiet section-note">{words.asked.lasting}</p>
    </details>
  );
}

const listed = (text: string | null): string[] => (text ? text.split(",") : []);
