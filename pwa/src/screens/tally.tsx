// The counting screen: one egg, one tap. Candling, lockdown, hatch looks and opening are the same screen.
import { useEffect, useState } from "preact/hooks";
import { tally as words } from "../app/words/tally.ts";
import { ownWords } from "../book/own-words.ts";
import { canStayAwake, stayAwake } from "../state/awake.ts";
import { choose, keepAwake } from "../state/choices.ts";
import { storageFault } from "../state/opening.ts";
import { standing } from "../state/standing.ts";
import { useKeyboard } from "./keyboard.ts";
import { later } from "./later.tsx";
import { batchNames } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { BigCount } from "./parts/big-count.tsx";
import { Press } from "./parts/press.tsx";
import { Undo } from "./parts/undo.tsx";
import { TallyKeys } from "./tally-keys.tsx";
import { inHand, type Pile, type TallyWhat } from "./tally-plan.ts";
import { Piles, pileFor, Strip } from "./tally-strip.tsx";
import { TallyTabs } from "./tally-tabs.tsx";
import { type Counting, type Panel, useTallyActs } from "./tally-turn.ts";
import {
  amongBatch,
  dayNowOf,
  leftInHand,
  outSince,
  type TallyView,
  tallyBatch,
  tallyView,
} from "./tally-view.ts";
import { clock } from "./told-time.ts";

// One egg, one tap comes first; the scripts of what is asked for seldom follow.
const TallyFault = later(() => import("./tally-fault.tsx").then((it) => it.TallyFault));
const TallyPanel = later(() => import("./tally-panel.tsx").then((it) => it.TallyPanel));

interface TallyScreenProps {
  readonly id: string;
  readonly what: TallyWhat;
}

export function TallyScreen({ id, what }: TallyScreenProps) {
  const now_ms = useNow();
  const setting = standing.value.settings.get(standing.value.rootOf.get(id) ?? id);
  useEffect(() => (keepAwake.value === "yes" ? stayAwake() : undefined), [keepAwake.value]);
  useEffect(() => {
    for (const part of [TallyPanel, TallyFault]) part.fetch().catch(() => undefined);
  }, []);
  const [isCounting, setCounting] = useState(false);
  const fault = storageFault.value;
  useEffect(() => {
    if (setting && !fault) setCounting(true); // begun: from now on every tap stays on the screen, whatever fails
  }, [setting, fault]);
  if (!setting) return <Page headline={words.gone(ownWords(standing.value.keeper.words))} />;
  if (fault && !isCounting) return <TallyFault code={fault} />;
  return <Tally key={what} view={tallyView(standing.value, setting, now_ms)} what={what} now_ms={now_ms} />;
}

/** A batch that still waits, so that a tally opens where the work is. */
function firstWaiting(view: TallyView, what: TallyWhat, day: number): string | null {
  const waiting = view.batches.find((lot) => inHand(what, tallyBatch(lot, what, day)) > 0);
  return (waiting ?? view.batches[0])?.id ?? null;
}

interface TallyProps {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly now_ms: number;
}

function Tally({ view, what, now_ms }: TallyProps) {
  // The day of the tally is the day on which it was opened: looks after midnight still belong to it.
  const [opened] = useState({ day: Math.max(0, view.day), at_ms: now_ms });
  const [at, setAt] = useState<Date | null>(null);
  const day = at ? Math.max(0, Math.floor(dayNowOf(view.setting, at.getTime()))) : opened.day;
  const [lot, setLot] = useState<string | null>(() => firstWaiting(view, what, day));
  const [pile, setPile] = useState<Pile>("unhatched");
  const [panel, setPanel] = useState<Panel>("keys");
  const names = batchNames(standing.value, view.batches);
  const shown = view.batches.find((one) => one.id === lot) ?? null;
  const all = amongBatch(view, what, day);
  const batch = shown ? tallyBatch(shown, what, day) : all;
  const openFrom = what === "open" ? pileFor(batch, pile) : null;
  const everyLeft = inHand(what, all);
  const left = leftInHand(view, what, day, batch.lot, openFrom);
  const name = shown ? (names.get(shown.id) ?? "") : words.among;
  const turn = { view, what, day, batch, pile: openFrom ?? "unhatched", name, left, at, now_ms };
  const acts = useTallyActs(turn);
  useKeyboard((key) => {
    if (key === "Backspace") acts.undo();
    if (key === "0") acts.say();
  });
  // Only in these two the eggs lie in the cold; a look at the hatch is short and opening is no hurry.
  const isOut = (what === "candle" || what === "lockdown") && left > 0 && !at;
  const out_min = isOut ? Math.floor((now_ms - outSince(view, day, opened.at_ms)) / 60_000) : null;
  const counting: Counting = {
    ...turn,
    shown,
    names,
    everyLeft,
    acts,
    out_min,
    open: setPanel,
    choose: (id) => {
      setLot(id);
      setPanel("keys");
    },
    setAt,
  };
  const title = what === "open" ? words.title.open : words.title[what](day);
  const sign = shown
    ? shown.sign
      ? words.sign(shown.sign)
      : words.noSign
    : words.amongNote(ownWords(standing.value.keeper.words));
  return (
    <div class="counting">
      <TallyTabs {...{ view, what, day, lot, names, everyLeft }} onChoose={setLot} />
      <div class="top" role="tabpanel" id="tally-panel" aria-label={name}>
        <h1 class="heard">{`${title}, ${name}`}</h1>
        <p class="quiet small tally-over">
          <span>{`${title}. ${sign}`}</span>
          {out_min !== null && <span class="nowrap">{words.out(out_min)}</span>}
        </p>
        <div class="count-line">
          <BigCount count={left} under={words.under[what](batch.n)} />
          <Undo word={words.lastTitle} last={acts.last} onUndo={acts.undo} />
        </div>
        <TallyPanel panel="cautions" {...counting} />
        {what === "open" && <Piles batch={batch} pile={openFrom ?? pile} onChoose={setPile} />}
        <Strip what={what} batch={batch} pile={openFrom} name={name} />
      </div>
      <div class="bottom-of">
        {panel !== "keys" && <TallyPanel panel={panel} {...counting} />}
        {panel === "keys" && left === 0 && <TallyPanel panel="end" {...counting} />}
        {panel === "keys" && left > 0 && (
          <>
            <TallyKeys {...{ what, batch, left }} pile={turn.pile} among={!shown} onAnswer={acts.answer}>
              <TallyPanel panel="seldom" {...counting} />
            </TallyKeys>
            {keepAwake.value === "unasked" && canStayAwake() ? <AskAwake /> : <Extra {...counting} />}
            <p class="quiet small at-desk">{words.keys}</p>
          </>
        )}
      </div>
    </div>
  );
}

function Extra({ what, at, acts, open }: Counting) {
  return (
    <div class="extra">
      {acts.rest && (
        <Press kind="plain" onPress={acts.rest}>
          {words.rest[what]}
        </Press>
      )}
      {what === "open" && (
        <Press kind="plain" onPress={() => open("guide")}>
          {words.guide}
        </Press>
      )}
      <Press kind="plain" onPress={() => open("typed")}>
        {words.typed}
      </Press>
      {(what === "hatch" || at) && (
        <Press kind="plain" onPress={() => open("when")}>
          {at ? words.whenAt(clock(at.getTime(), standing.value.keeper.zone)) : words.whenNow}
        </Press>
      )}
    </div>
  );
}

/** Asked once, where the thumb is; the answer can be changed under "This phone". */
function AskAwake() {
  return (
    <fieldset class="ask">
      <legend>{words.awake}</legend>
      <Press kind="plain" onPress={() => choose("keepAwake", "no")}>
        {words.awakeNo}
      </Press>
      <Press kind="firm" onPress={() => choose("keepAwake", "yes")}>
        {words.awakeYes}
      </Press>
    </fieldset>
  );
}
