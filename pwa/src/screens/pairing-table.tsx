// Each cock with each hen: the inbreeding of their chicks, and what speaks against it.
import { chanceTold } from "../app/words/answers.ts";
import { pairing as words } from "../app/words/pairing.ts";
import { type Mating, type PairingBird, type PairingReport, pairKey } from "../state/pairing-report.ts";
import { Wide } from "./parts/wide.tsx";

const told = (share: number) =>
  new Intl.NumberFormat(undefined, { maximumFractionDigits: 1 }).format(100 * share);

/** So many cocks stand beside each other on a sheet of A4; more go below, with the hens again. */
const MOST_ABREAST = 7;

const inBlocks = (cocks: readonly PairingBird[]): PairingBird[][] =>
  Array.from({ length: Math.ceil(cocks.length / MOST_ABREAST) }, (_, at) =>
    cocks.slice(at * MOST_ABREAST, (at + 1) * MOST_ABREAST),
  );

export function PairingTable({ report }: { report: PairingReport }) {
  if (report.table.size === 0) return null;
  const of = (sex: string) => report.birds.filter((bird) => bird.sex === sex);
  const cocks = of("male");
  const against = [...report.table.values()].filter((one) => one.why.length + one.cautions.length > 0);
  const labels = new Map(report.birds.map((bird) => [bird.bird, bird.label]));
  return (
    <section class="section">
      <h2>{words.table}</h2>
      {inBlocks(cocks).map((block) => (
        <Wide key={block[0]?.bird} label={words.tableOf(block[0]?.label ?? "", block.at(-1)?.label ?? "")}>
          <table class="mating-table">
            <thead>
              <tr>
                <th scope="col">{words.hen}</th>
                {block.map((cock) => (
                  <th scope="col" class="r" key={cock.bird}>
                    {cock.label}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {of("female").map((hen) => (
                <tr key={hen.bird}>
                  <th scope="row">{hen.label}</th>
                  {block.map((cock) => (
                    <Cell key={cock.bird} mating={report.table.get(pairKey(cock.bird, hen.bird))} />
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
      ))}
      <p class="small quiet section-note">{words.tableNote(report.limit)}</p>
      {against.length > 0 && (
        <>
          <h3>{words.notes}</h3>
          <ul class="rows">
            {against.map((one) => (
              <li key={pairKey(one.sire, one.dam)}>
                <b>
                  {labels.get(one.sire)}, {labels.get(one.dam)}
                </b>{" "}
                {[...one.why, ...one.cautions].join(" ")}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

function Cell({ mating }: { mating: Mating | undefined }) {
  if (!mating) return <td />;
  const state = mating.ruledOut ? "ruled-out" : mating.over >= 0.005 ? "over" : "";
  return (
    <td class={`r ${state}`}>
      {(mating.known || mating.inbreeding > 0) && told(mating.inbreeding)}
      {!mating.known && "?"}
      {mating.over > 0 && <span class="over-limit">{chanceTold(mating.over)}</span>}
    </td>
  );
}
