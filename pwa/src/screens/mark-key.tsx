// What the keeper calls each pattern: words only, a plain sum, or labels of their own. The book keeps the webs.
import { useState } from "preact/hooks";
import { marks as words } from "../app/words/marks.ts";
import type { Keeper } from "../book/bodies.generated.ts";
import { nameKeeper } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { patternKey, patterns } from "../trade/marks.ts";
import { sumKey } from "./mark-webs.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

type Way = "none" | "sum" | "own";
const ALL = patterns().filter((one) => one.length > 0);
const SUM = sumKey(ALL);

function wayOf(key: Keeper["mark_key"]): Way {
  if (!key || Object.keys(key).length === 0) return "none";
  return ALL.every((one) => key[patternKey(one)] === SUM[patternKey(one)]) ? "sum" : "own";
}

export function MarkKey() {
  const { keeper, heads } = { keeper: standing.value.keeper, heads: standing.value.heads };
  const written = keeper.mark_key ?? {};
  const [way, setWay] = useState<Way>(wayOf(keeper.mark_key));
  const [at, setAt] = useState(patternKey(ALL[0] ?? []));
  const [label, setLabel] = useState(written[at] ?? "");
  if (!heads.keeper?.length) return null;
  const keep = (mark_key: Record<string, string>) => void nameKeeper({ ...keeper, mark_key });
  const choose = (next: Way) => {
    setWay(next);
    if (next === "none") keep({});
    if (next === "sum") keep(SUM);
  };
  const pick = (key: string) => {
    setAt(key);
    setLabel(written[key] ?? "");
  };
  const shown = ALL.find((one) => patternKey(one) === at) ?? [];
  return (
    <details class="section">
      <summary>{words.key.title}</summary>
      <p class="quiet">{words.key.hint}</p>
      <SelectField
        label={words.key.label}
        value={way}
        options={(["none", "sum", "own"] as const).map((value) => ({ value, text: words.key[value] }))}
        onChoose={(value) => choose(value === "sum" || value === "own" ? value : "none")}
      />
      {way === "own" && (
        <>
          <SelectField
            label={words.ways.webs}
            value={at}
            options={ALL.map((one) => ({
              value: patternKey(one),
              text: [words.pattern.told(one), written[patternKey(one)]].filter(Boolean).join(": "),
            }))}
            onChoose={pick}
          />
          <TextField label={words.key.labelOf(shown)} value={label} most={20} onType={setLabel} />
          <div class="acts">
            <Press
              kind="firm"
              onPress={() => {
                const { [at]: _, ...others } = written;
                keep(label.trim() ? { ...others, [at]: label.trim() } : others);
              }}
            >
              {words.key.save}
            </Press>
          </div>
        </>
      )}
    </details>
  );
}
