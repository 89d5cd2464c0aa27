// What the pens must keep to: how many, how large, how kin.
import { pct } from "../app/words/answers.ts";
import { capital } from "../app/words/capital.ts";
import { pairing as words } from "../app/words/pairing.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { ownWords } from "../book/own-words.ts";
import type { PairingReport } from "../state/pairing-report.ts";
import { standing } from "../state/standing.ts";
import { type AskedWishes, PairingAsked } from "./pairing-asked.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";

const LIMITS = [3.125, 6.25, 12.5, 25];
const MOST_PENS = 12;
const MOST_HENS = 20;
const MOST_COCKS = 3;

/** As the server is asked; null leaves it to the server. */
export interface PairingWishes extends AskedWishes {
  readonly breed: string | null;
  readonly pens: number | null;
  readonly hens: number | null;
  readonly cocks: number;
  readonly limit: number;
  /** Null: by the year's moves of males where neither pens nor hens are asked for. */
  readonly moves: "1" | "0" | null;
  readonly apart: "1" | null;
  readonly under_limit: "1" | null;
  readonly kept: "1" | null;
}

export const NO_WISHES: PairingWishes = {
  breed: null,
  pens: null,
  hens: null,
  cocks: 1,
  limit: 12.5,
  moves: null,
  apart: null,
  under_limit: null,
  kept: null,
  must: null,
  never: null,
};

const upTo = (n: number) =>
  Array.from({ length: n }, (_, i) => ({ value: String(i + 1), text: String(i + 1) }));
const orNull = (value: string) => (value === "" ? null : Number(value));

interface PairingWishesFormProps {
  readonly report: PairingReport;
  readonly wishes: PairingWishes;
  readonly onWish: (wishes: PairingWishes) => void;
}

export function PairingWishesForm({ report, wishes, onWish }: PairingWishesFormProps) {
  const { words: chosen, region } = standing.value.keeper;
  const own = ownWords(chosen).family;
  const wish = (change: Partial<PairingWishes>) => onWish({ ...wishes, ...change });
  return (
    <section class="section no-print">
      <h2>{words.wishes}</h2>
      <div class="pens">
        {report.breeds.length > 1 && (
          <SelectField
            label={words.breed}
            value={report.breed}
            options={report.breeds.map((breed) => ({ value: breed, text: breed }))}
            onChoose={(breed) => wish({ breed })}
          />
        )}
        <SelectField
          label={words.pens}
          value={String(wishes.pens ?? "")}
          options={[{ value: "", text: words.byFamilies(own.many) }, ...upTo(MOST_PENS)]}
          onChoose={(value) => wish({ pens: orNull(value) })}
        />
        <SelectField
          label={words.hens}
          value={String(wishes.hens ?? "")}
          options={[{ value: "", text: words.shared }, ...upTo(MOST_HENS)]}
          onChoose={(value) => wish({ hens: orNull(value) })}
        />
        <SelectField
          label={words.cocks(capital(termsOf(regionOf(region)).cock))}
          value={String(wishes.cocks)}
          options={upTo(MOST_COCKS)}
          onChoose={(value) => wish({ cocks: Number(value) })}
        />
        <SelectField
          label={words.limit}
          value={String(wishes.limit)}
          options={LIMITS.map((limit) => ({ value: String(limit), text: pct(limit / 100) }))}
          onChoose={(value) => wish({ limit: Number(value) })}
        />
      </div>
      {report.rotation.moves.length > 0 && (
        <Switch
          text={words.followMoves}
          on={wishes.moves === null ? report.rotation.followed : wishes.moves === "1"}
          onSwitch={(on) => wish({ moves: on ? "1" : "0" })}
        />
      )}
      <Switch
        text={words.apart(own.one)}
        on={wishes.apart !== null}
        onSwitch={(on) => wish({ apart: on ? "1" : null })}
      />
      <Switch
        text={words.kept}
        on={wishes.kept !== null}
        onSwitch={(on) => wish({ kept: on ? "1" : null })}
      />
      <Switch
        text={words.underLimit}
        on={wishes.under_limit !== null}
        onSwitch={(on) => wish({ under_limit: on ? "1" : null })}
      />
      <PairingAsked report={report} wishes={wishes} onWish={wish} />
    </section>
  );
}

function Switch({ text, on, onSwitch }: { text: string; on: boolean; onSwitch: (on: boolean) => void }) {
  return (
    <div class="check">
      <Press role="switch" checked={on} name={text} onPress={() => onSwitch(!on)}>
        {on ? words.yes : words.no}
      </Press>
      <span aria-hidden="true">{text}</span>
    </div>
  );
}
