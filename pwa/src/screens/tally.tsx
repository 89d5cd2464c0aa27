// The counting screen: one egg, one tap. Candling, lockdown, hatch looks and opening are the same screen.
import { useEffect, useState } from "preact/hooks";
import { attention } from "../app/words/attention.ts";
import { eggs } from "../app/words/everywhere.ts";
import { regionOf, termsOf } from "../app/words/region.ts";
import { stageWords } from "../app/words/stages.ts";
import { cannotBegin, cautions, tally as words } from "../app/words/tally.ts";
import { stayAwake } from "../state/awake.ts";
import { choose, keepAwake, spoken } from "../state/choices.ts";
import { storageFault, surroundings, wake } from "../state/opening.ts";
import { standing } from "../state/standing.ts";
import { useKeyboard } from "./keyboard.ts";
import { later } from "./later.tsx";
import { batchNames } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { BigCount } from "./parts/big-count.tsx";
import { EggStrip } from "./parts/egg-strip.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Undo } from "./parts/undo.tsx";
import { TallyEnd } from "./tally-end.tsx";
import { TallyKeys } from "./tally-keys.tsx";
import { inHand, onPile, PILES, type Pile, stripOf, type TallyBatch, type TallyWhat } from "./tally-plan.ts";
import { TallyTabs } from "./tally-tabs.tsx";
import { useTallyActs } from "./tally-turn.ts";
import { amongBatch, type TallyView, tallyBatch, tallyView } from "./tally-view.ts";

// One egg, one tap comes first; the scripts of what is asked for seldom follow.
const TallyAgain = later(() => import("./tally-again.tsx").then((it) => it.TallyAgain));
const TallyTyped = later(() => import("./tally-typed.tsx").then((it) => it.TallyTyped));

interface TallyScreenProps {
  readonly id: string;
  readonly what: TallyWhat;
}

export function TallyScreen({ id, what }: TallyScreenProps) {
  const now_ms = useNow();
  const setting = standing.value.settings.get(standing.value.rootOf.get(id) ?? id);
  useEffect(() => (keepAwake.value === "yes" ? stayAwake() : undefined), [keepAwake.value]);
  useEffect(() => {
    for (const panel of [TallyAgain, TallyTyped]) panel.fetch().catch(() => undefined);
  }, []);
  const [isCounting, setCounting] = useState(false);
  const fault = storageFault.value;
  useEffect(() => {
    if (setting && !fault) setCounting(true); // begun: from now on every tap stays on the screen, whatever fails
  }, [setting, fault]);
  if (!setting) return <Page headline={words.gone} />;
  if (fault && !isCounting) return <NotNow code={fault} />;
  return (
    <Counting key={what} view={tallyView(standing.value, setting, now_ms)} what={what} now_ms={now_ms} />
  );
}

/** Storage does not work: a count that is not kept is worse than none. */
function NotNow({ code }: { code: NonNullable<typeof storageFault.value> }) {
  const { what, remedy } = attention.storage[code];
  return (
    <Page headline={cannotBegin.title} under={`${what} ${remedy}`}>
      <div class="acts">
        <Press kind="main" onPress={() => void wake(surroundings())}>
          {cannotBegin.again}
        </Press>
      </div>
    </Page>
  );
}

/** A batch that still waits, so that a tally opens where the work is. */
function firstWaiting(view: TallyView, what: TallyWhat, day: number): string | null {
  const waiting = view.batches.find((lot) => inHand(what, tallyBatch(lot, what, day)) > 0);
  return (waiting ?? view.batches[0])?.id ?? null;
}

interface CountingProps {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly now_ms: number;
}

function Counting({ view, what, now_ms }: CountingProps) {
  // The day of the tally is the day on which it was opened: looks after midnight still belong to it.
  const [day] = useState(Math.max(0, view.day));
  const [opened_ms] = useState(now_ms);
  const [lot, setLot] = useState<string | null>(() => firstWaiting(view, what, day));
  const [pile, setPile] = useState<Pile>("unhatched");
  const [panel, setPanel] = useState<"keys" | "typed" | "again">("keys");
  const names = batchNames(standing.value, view.batches);
  const shown = view.batches.find((one) => one.id === lot);
  const batch = shown ? tallyBatch(shown, what, day) : amongBatch(view, what, day);
  const openFrom = what === "open" ? pileFor(batch, pile) : null;
  const left = inHand(what, batch, openFrom);
  const name = shown ? (names.get(shown.id) ?? "") : words.among;
  const acts = useTallyActs({ view, what, day, batch, pile: openFrom ?? "unhatched", name, left });
  useKeyboard((key) => {
    if (key === "Backspace") acts.undo();
  });
  // Only in these two the eggs lie in the cold; a look at the hatch is short and opening is no hurry.
  const isOut = what === "candle" || what === "lockdown";
  const everyLeft = inHand(what, amongBatch(view, what, day));
  const sign = shown ? (shown.sign ? words.sign(shown.sign) : words.noSign) : words.amongNote;
  return (
    <div class="counting">
      <TallyTabs view={view} what={what} day={day} lot={lot} names={names} onChoose={setLot} />
      <div class="top" role="tabpanel" id="tally-panel" aria-label={name}>
        <h1 class="heard">{`${titleOf(what, day)}, ${name}`}</h1>
        <p class="quiet small tally-over">
          <span>{`${titleOf(what, day)}. ${sign}`}</span>
          {isOut && left > 0 && (
            <span class="nowrap">{words.out(Math.floor((now_ms - opened_ms) / 60_000))}</span>
          )}
        </p>
        <div class="count-line">
          <BigCount count={left} under={words.under[what](batch.n)} />
          <Undo word={words.lastTitle} last={acts.last} onUndo={acts.undo} />
        </div>
        {what === "open" && <Piles batch={batch} pile={openFrom ?? pile} onChoose={setPile} />}
        <Strip what={what} batch={batch} pile={openFrom} name={name} />
        {what === "open" && <Notice>{cautions.opening}</Notice>}
        {what === "hatch" && batch.pipped > 0 && <Notice>{cautions.lid}</Notice>}
      </div>
      <div class="bottom-of">
        {panel === "typed" && (
          <TallyTyped
            what={what}
            name={name}
            left={left}
            among={!shown}
            onWrite={acts.answer}
            onClose={() => setPanel("keys")}
          />
        )}
        {panel === "again" && shown && (
          <TallyAgain what={what} lot={shown} day={day} onClose={() => setPanel("keys")} />
        )}
        {panel === "keys" && left === 0 && (
          <TallyEnd
            view={view}
            what={what}
            day={day}
            names={names}
            everyLeft={everyLeft}
            unsure={acts.unsure}
            onNext={setLot}
            onUnsure={acts.lookAgain}
          />
        )}
        {panel === "keys" && left > 0 && (
          <>
            <TallyKeys what={what} batch={batch} among={!shown} onAnswer={acts.answer}>
              <Seldom onAgain={shown && what !== "open" ? () => setPanel("again") : null} />
            </TallyKeys>
            {keepAwake.value === "unasked" ? (
              <AskAwake />
            ) : (
              <Extra what={what} rest={acts.rest} onTyped={() => setPanel("typed")} />
            )}
            <p class="quiet small at-desk">{words.keys}</p>
          </>
        )}
      </div>
    </div>
  );
}

const titleOf = (what: TallyWhat, day: number) =>
  what === "open" ? words.title.open : words.title[what](day);

/** The pile the keeper chose while anything is on it, else the first with eggs on it. */
function pileFor(batch: TallyBatch, chosen: Pile): Pile {
  return onPile(batch, chosen) > 0 ? chosen : (PILES.find((pile) => onPile(batch, pile) > 0) ?? chosen);
}

function Piles({ batch, pile, onChoose }: { batch: TallyBatch; pile: Pile; onChoose: (pile: Pile) => void }) {
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

function Strip({
  what,
  batch,
  pile,
  name,
}: {
  what: TallyWhat;
  batch: TallyBatch;
  pile: Pile | null;
  name: string;
}) {
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

interface ExtraProps {
  readonly what: TallyWhat;
  readonly rest: (() => void) | null;
  readonly onTyped: () => void;
}

function Extra({ what, rest, onTyped }: ExtraProps) {
  return (
    <div class="extra">
      {rest && (
        <Press kind="plain" onPress={rest}>
          {words.rest[what]}
        </Press>
      )}
      <Press kind="plain" onPress={onTyped}>
        {words.typed}
      </Press>
    </div>
  );
}

/** What is seldom asked for stands behind "something else". */
function Seldom({ onAgain }: { onAgain: (() => void) | null }) {
  const aloud = spoken.value === "yes";
  return (
    <>
      {onAgain && (
        <Press kind="plain" onPress={onAgain}>
          {words.again}
        </Press>
      )}
      <Press
        kind="plain"
        role="switch"
        checked={aloud}
        onPress={() => choose("spoken", aloud ? "no" : "yes")}
      >
        {words.say}
      </Press>
    </>
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
