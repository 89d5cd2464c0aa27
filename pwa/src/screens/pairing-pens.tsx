// Pens side by side, each with what its chicks are to be expected to be.
import { pairing as words } from "../app/words/pairing.ts";
import type { PairingPen, PairingReport } from "../state/pairing-report.ts";
import { standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { penFigures } from "./pairing-figures.ts";

interface PairingPensProps {
  readonly title: string;
  readonly report: PairingReport;
  readonly pens: readonly PairingPen[];
  /** They are put together already. */
  readonly stand?: boolean;
}

export function PairingPens({ title, report, pens, stand = false }: PairingPensProps) {
  const labels = labelsOf(report);
  const told = (birds: readonly string[]) => birds.map((bird) => labels.get(bird) ?? "").join(", ");
  return (
    <section class="section">
      <h2>{title}</h2>
      <div class="pens">
        {pens.map((pen, at) => (
          <div class="section" key={pen.sires.join()}>
            <h3>{penHeading(report, pen, at + 1)}</h3>
            <p>{told(pen.dams)}</p>
            <PenFiguresTold report={report} pen={pen} />
            {!stand && (
              <div class="acts no-print">
                <a class="press plain" href={penAddress(pen)} aria-label={words.putFor(told(pen.sires))}>
                  {words.put}
                </a>
              </div>
            )}
          </div>
        ))}
      </div>
    </section>
  );
}

/** The pen's place or number, its cocks, whose hens are in it, and whose cocks where they are of another family. */
export function penHeading(report: PairingReport, pen: PairingPen, number: number): string {
  const { families } = standing.value;
  const of = new Map(report.birds.map(({ bird, family }) => [bird, family]));
  const [home, giver] = [pen.dams, pen.sires].map((birds) => {
    const [family, other] = new Set(birds.map((bird) => of.get(bird) ?? ""));
    return other === undefined ? families.get(family ?? "")?.name : undefined;
  });
  const cocks = pen.sires.map((bird) => labelsOf(report).get(bird) ?? "").join(", ");
  const name = pen.place ? placeName(standing.value, pen.place) : words.pen(number);
  return words.penOf(name, home, cocks, giver === home ? undefined : giver);
}

/** Where the pen is written down, its family and birds filled in; with hens of several the keeper says which. */
export const penAddress = ({ family, sires, dams }: PairingPen): string =>
  `/families/pens?${family ? `family=${family}&` : ""}birds=${[...sires, ...dams].join()}`;

export const labelsOf = (report: PairingReport): ReadonlyMap<string, string> =>
  new Map(report.birds.map((bird) => [bird.bird, bird.label]));

export function PenFiguresTold({ report, pen }: { report: PairingReport; pen: PairingPen }) {
  const figures = penFigures(report.table, pen);
  if (!figures) return <p class="quiet">{words.empty}</p>;
  const { mean, over } = figures;
  const nothing = mean === null || over === null || (figures.worst === 0 && !figures.known);
  return (
    <>
      <p class="quiet">
        {nothing ? words.unknown : words.figures(mean, figures.worst)}
        {!nothing && over > 0 && `; ${words.over(over, report.limit, figures.overError)}`}
        {!nothing && !figures.known && `. ${words.partly}`}
      </p>
      {figures.cautions.map((caution) => (
        <p key={caution}>{words.mind(caution)}</p>
      ))}
    </>
  );
}
