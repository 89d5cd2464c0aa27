// Pens put together by hand: each bird is sent to a pen, and the figures follow at once.
import { pairing as words } from "../app/words/pairing.ts";
import type { PairingBird, PairingPen, PairingReport } from "../state/pairing-report.ts";
import { useKept } from "./kept-wishes.ts";
import { meanOfPens, moved } from "./pairing-figures.ts";
import { PenFiguresTold, penHeading } from "./pairing-pens.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";

/** of: the plan that the pens began from; what was changed by hand stays with it. */
export function PairingByHand({ report, of }: { report: PairingReport; of: string }) {
  const start = report.pens.length > 0 ? report.pens : [EMPTY];
  const [pens, setPens] = useKept<readonly PairingPen[]>(`pens ${of}`, start);
  const placed = new Set(pens.flatMap((pen) => [...pen.sires, ...pen.dams]));
  const left = report.birds.filter((bird) => !placed.has(bird.bird));
  const send = (bird: PairingBird, to: number | null) =>
    setPens(moved(pens, bird.bird, bird.sex === "male", to));
  const rowOf = (bird: PairingBird, at: number | null) => (
    <Row key={bird.bird} bird={bird} pens={pens.length} at={at} onSend={(to) => send(bird, to)} />
  );
  const inPen = (pen: PairingPen) =>
    [...pen.sires, ...pen.dams].flatMap((id) => report.birds.filter((bird) => bird.bird === id));
  return (
    <section class="section">
      <h2>{words.handTitle}</h2>
      <Notice live>
        <p>
          <b>{words.handResult(meanOfPens(report.table, pens), report.mean)}</b>
        </p>
      </Notice>
      <div class="acts">
        <Press kind="plain" off={report.pens.length === 0} onPress={() => setPens(report.pens)}>
          {words.from.plan}
        </Press>
        <Press kind="plain" off={report.today.length === 0} onPress={() => setPens(report.today)}>
          {words.from.today}
        </Press>
        <Press kind="plain" onPress={() => setPens([...pens, EMPTY])}>
          {words.newPen}
        </Press>
      </div>
      <div class="pens">
        {pens.map((pen, at) => (
          <div class="section" key={at}>
            <h3>{penHeading(report, pen, at + 1)}</h3>
            <PenFiguresTold report={report} pen={pen} />
            <ul class="rows pen-birds">{inPen(pen).map((bird) => rowOf(bird, at))}</ul>
          </div>
        ))}
        {left.length > 0 && (
          <div class="section">
            <h3>{words.without}</h3>
            <ul class="rows pen-birds">{left.map((bird) => rowOf(bird, null))}</ul>
          </div>
        )}
      </div>
    </section>
  );
}

const EMPTY: PairingPen = { sires: [], dams: [] };

interface RowProps {
  readonly bird: PairingBird;
  readonly pens: number;
  readonly at: number | null;
  readonly onSend: (to: number | null) => void;
}

function Row({ bird, pens, at, onSend }: RowProps) {
  return (
    <li>
      <span>{bird.sex === "male" ? <b>{bird.label}</b> : bird.label}</span>
      <select
        aria-label={words.to(bird.label)}
        value={String(at ?? "")}
        onChange={(event) =>
          onSend(event.currentTarget.value === "" ? null : Number(event.currentTarget.value))
        }
      >
        <option value="" selected={at === null}>
          {words.out}
        </option>
        {Array.from({ length: pens }, (_, n) => (
          <option key={n} value={String(n)} selected={at === n}>
            {words.pen(n + 1)}
          </option>
        ))}
      </select>
    </li>
  );
}
