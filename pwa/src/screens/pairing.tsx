// The pairing desk: pens for next season within the keeper's limits, changed by hand with the same figures at once.
import { useEffect } from "preact/hooks";
import { answers } from "../app/words/answers.ts";
import { pairing as words } from "../app/words/pairing.ts";
import { papers } from "../app/words/papers.ts";
import { ownWords } from "../book/own-words.ts";
import { asked, askPairing, pairingTold } from "../state/breeding-reports.ts";
import type { PairingReport } from "../state/pairing-report.ts";
import { standing } from "../state/standing.ts";
import { useKept } from "./kept-wishes.ts";
import { Page } from "./page.tsx";
import { PairingBirds } from "./pairing-birds.tsx";
import { PairingByHand } from "./pairing-by-hand.tsx";
import { PairingMoves } from "./pairing-moves.tsx";
import { PairingPens } from "./pairing-pens.tsx";
import { PairingTable } from "./pairing-table.tsx";
import { NO_WISHES, type PairingWishes, PairingWishesForm } from "./pairing-wishes.tsx";
import { PaperLinks } from "./paper-links.tsx";
import { Press } from "./parts/press.tsx";
import { AnswerProblems, PrintPress, Stale, ToldAnswer } from "./told-answer.tsx";

export function PairingScreen() {
  const [wishes, setWishes] = useKept<PairingWishes>("pairing", NO_WISHES);
  useEffect(() => void askPairing(wishes), [wishes]);
  return (
    <ToldAnswer answer={pairingTold.value} title={words.waiting} again={() => void askPairing(wishes)}>
      {(report, when) => <Pairing report={report} when={when} wishes={wishes} onWish={setWishes} />}
    </ToldAnswer>
  );
}

/** What was put together by hand stays while the plan it began from is the same. */
const planKey = ({ pens }: PairingReport) => pens.map((pen) => [...pen.sires, ...pen.dams].join()).join("|");

interface PairingProps {
  readonly report: PairingReport;
  readonly when: string;
  readonly wishes: PairingWishes;
  readonly onWish: (wishes: PairingWishes) => void;
}

function Pairing({ report, when, wishes, onWish }: PairingProps) {
  const [byHand, setByHand] = useKept("by hand", false);
  const families = ownWords(standing.value.keeper.words).family.many;
  const headline =
    report.mean !== null
      ? words.headline(report.mean, report.todayMean)
      : report.birds.length > 0
        ? words.none
        : words.noBirds;
  return (
    <Page
      headline={headline}
      over={answers.over(when)}
      under={[
        report.mean === null ? "" : words.hensNotKnown(report.mean, report.todayMean),
        report.random === null ? "" : words.random(report.random, report.mixed, families),
      ]
        .join(" ")
        .trim()}
      beside={<PrintPress />}
      wide
    >
      <Stale answer={pairingTold.value} when={when} />
      {report.relax.length > 0 && (
        <section class="section">
          <h2>{words.relax}</h2>
          <ul class="rows">
            {report.relax.map((told) => (
              <li key={told}>{told}</li>
            ))}
          </ul>
        </section>
      )}
      <PairingWishesForm report={report} wishes={wishes} onWish={onWish} />
      {report.pens.length > 0 && <PairingPens title={words.plan} report={report} pens={report.pens} />}
      {report.pens.length > 0 && !report.proved && <p class="quiet section-note">{words.notProved}</p>}
      {report.notes.length > 0 && (
        <section class="section">
          {report.notes.map((note) => (
            <p class="quiet" key={note}>
              {note}
            </p>
          ))}
        </section>
      )}
      {report.today.length > 0 && !byHand && (
        <PairingPens title={words.today} report={report} pens={report.today} stand />
      )}
      {report.birds.length > 0 && !byHand && (
        <div class="acts no-print">
          <Press kind="main" onPress={() => setByHand(true)}>
            {words.byHand}
          </Press>
        </div>
      )}
      {byHand && <PairingByHand key={planKey(report)} of={planKey(report)} report={report} />}
      <PaperLinks
        of={words.waiting}
        links={[{ path: `papers/matings.pdf${asked(wishes)}`, what: papers.pens }]}
      />
      <PairingTable report={report} />
      <PairingBirds birds={report.birds} />
      <PairingMoves rotation={report.rotation} />
      <AnswerProblems problems={report.problems} />
    </Page>
  );
}
