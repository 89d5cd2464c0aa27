// The eggs of a batch as a strip, and, at opening, the piles they lie on.
import { eggs } from "../app/words/everywhere.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { tally as words } from "../app/words/tally.ts";
import { standing } from "../state/standing.ts";
import { EggStrip } from "./parts/egg-strip.tsx";
import { Press } from "./parts/press.tsx";
import { onPile, PILES, type Pile, stripOf, type TallyBatch, type TallyWhat } from "./tally-plan.ts";

/** The pile the keeper chose while anything is on it, else the first with eggs on it. */
export function pileFor(batch: TallyBatch, chosen: Pile): Pile {
  return onPile(batch, chosen) > 0 ? chosen : (PILES.find((pile) => onPile(batch, pile) > 0) ?? chosen);
}

interface PilesProps {
  readonly batch: TallyBatch;
  readonly pile: Pile;
  readonly onChoose: (pile: Pile) => void;
}

export function Piles({ batch, pile, onChoose }: PilesProps) {
  const region = regionOf(standing.value.keeper.region);
  const filled = PILES.filter((one) => onPile(batch, one) > 0);
  if (filled.length < 2) return null;
  return (
    <div class="piles" role="radiogroup" aria-label={words.pile}>
      {filled.map((one) => (
        <Press key={one} kind="plain" role="radio" checked={one === pile} onPress={() => onChoose(one)}>
          {`${onPile(batch, one)} ${stageWords(one, region).after}`}
        </Press>
      ))}
    </div>
  );
}

interface StripProps {
  readonly what: TallyWhat;
  readonly batch: TallyBatch;
  readonly pile: Pile | null;
  readonly name: string;
}

export function Strip({ what, batch, pile, name }: StripProps) {
  const region = regionOf(standing.value.keeper.region);
  const { upright, out } = stripOf(what, batch, pile);
  const told = (list: typeof upright) =>
    list.map(({ shape, n }) => words.part(n, shapeWords(shape, region))).join(", ");
  const judged = upright.filter(({ shape }) => shape !== "hand");
  const outNote = out.length > 0 ? words.stripOut(told(out)) : "";
  const parts = [told(upright), outNote].filter(Boolean).join("; ") || eggs(0);
  return (
    <EggStrip
      upright={upright}
      out={out}
      name={words.stripName(name, parts)}
      uprightNote={what === "open" ? "" : told(judged)}
      outNote={outNote}
    />
  );
}

/** What a shape of the strip is called. */
function shapeWords(shape: string, region: ReturnType<typeof regionOf>): string {
  if (shape === "hand") return words.inHand;
  if (shape === "lost") return stageWords("died", region).after;
  if (shape === "gone") return stageWords("taken", region).after;
  if (shape === "missing") return stageWords("unaccounted", region).after;
  if (shape === "quitter") return termsOf(region).quitter;
  return stageWords(shape, region).after;
}
