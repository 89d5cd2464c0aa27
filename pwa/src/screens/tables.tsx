// A keeper's own spreadsheet: tried, its columns put right, taken in, and taken back as one.
import { useRef, useState } from "preact/hooks";
import { asking } from "../app/words/asking.ts";
import { tables as words } from "../app/words/tables.ts";
import {
  actOnTable,
  packTable,
  type SheetTold,
  type TableAct,
  type TableAnswer,
  type TableSent,
} from "../state/tables.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import { BadRows } from "./table-bad-rows.tsx";
import { NOT_OURS, SheetKind, TableSheet } from "./table-sheet.tsx";
import { Unsaid } from "./table-unsaid.tsx";
import { useWaited } from "./waited.ts";

interface Shown {
  readonly act: TableAct;
  readonly answer: TableAnswer;
}

export function TablesScreen() {
  const [sent, setSent] = useState<TableSent | null>(null);
  const [shown, setShown] = useState<Shown | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const seconds = useWaited(busy);
  const asks = useRef(0); // of two changes soon after each other, the answer to the last one stands
  const act = async (next: TableSent, doing: TableAct) => {
    asks.current += 1;
    const own = asks.current;
    setSent(next);
    setBusy(true);
    const told = await actOnTable(next, doing);
    if (own !== asks.current) return;
    setBusy(false);
    setFault(told.kind === "ok" ? null : told.kind === "away" ? asking.away : told.words);
    if (told.kind === "ok") setShown({ act: doing, answer: told.value });
  };
  return (
    <Page headline={shown ? headlineOf(shown) : words.title} under={words.under}>
      {fault && (
        <Notice tone="watch" live>
          {fault}
        </Notice>
      )}
      <p role="status">{busy && (seconds < 2 ? asking.waiting : asking.waited(seconds))}</p>
      <div class="acts">
        <label class="press plain">
          {words.choose}
          <input
            type="file"
            class="picker"
            accept=".xlsx,.csv,.tsv"
            onChange={({ currentTarget: field }) => {
              const file = field.files?.[0];
              setShown(null);
              if (file) void packTable(file).then((next) => act(next, "try"));
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
        {sent && shown?.act === "try" && shown.answer.added > 0 && (
          <Press kind="main" off={busy} onPress={() => void act(sent, "take")}>
            {words.take}
          </Press>
        )}
        {sent && shown && (shown.act === "take" || shown.answer.known > 0) && shown.act !== "undo" && (
          <Press kind="plain" off={busy} onPress={() => void act(sent, "undo")}>
            {words.undo}
          </Press>
        )}
      </div>
      <p class="quiet small section-note">{words.notMadeUp}</p>
      {sent && shown && (
        <Told shown={shown} sent={sent} onChange={(change) => void act({ ...sent, ...change }, "try")} />
      )}
    </Page>
  );
}

function headlineOf({ act, answer }: Shown): string {
  return act === "try"
    ? words.tried(answer.added)
    : act === "take"
      ? words.taken(answer.added)
      : words.undone(answer.added);
}

type Change = Omit<TableSent, "name" | "base64">;

interface ToldProps {
  readonly shown: Shown;
  readonly sent: TableSent;
  readonly onChange: (change: Change) => void;
}

function Told({ shown, sent, onChange }: ToldProps) {
  const { tables, others, asked, bad, known } = shown.answer;
  const isTrial = shown.act === "try";
  const tell = (sheet: string, told: SheetTold) =>
    onChange({ sheets: { ...sent.sheets, [sheet]: { ...sent.sheets?.[sheet], ...told } } });
  return (
    <>
      {known > 0 && <p>{words.known(known)}</p>}
      {shown.act !== "undo" && <BadRows rows={bad} />}
      {isTrial && asked.length > 0 && <Unsaid asked={asked} sent={sent} onChange={onChange} />}
      {tables.map((table) => (
        <TableSheet
          key={table.sheet}
          table={table}
          told={sent.sheets?.[table.sheet]}
          onTell={isTrial ? (told) => tell(table.sheet, told) : null}
        />
      ))}
      {isTrial && others.length > 0 && (
        <Section title={words.left(others.length)}>
          <p class="quiet">{words.leftWords}</p>
          <div class="pair">
            {others.map((sheet) => (
              <SheetKind key={sheet} sheet={sheet} kind={NOT_OURS} onTell={(told) => tell(sheet, told)} />
            ))}
          </div>
        </Section>
      )}
    </>
  );
}
