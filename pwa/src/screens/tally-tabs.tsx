// The batches of a setting as tabs, each with how many still wait; and "family not known" at the end.
import { useEffect, useRef } from "preact/hooks";
import { tally as words } from "../app/words/tally.ts";
import { Press } from "./parts/press.tsx";
import { inHand, type TallyWhat } from "./tally-plan.ts";
import { type TallyView, tallyBatch } from "./tally-view.ts";

interface TallyTabsProps {
  readonly view: TallyView;
  readonly what: TallyWhat;
  readonly day: number;
  /** Null: the tab for eggs whose family is not known. */
  readonly lot: string | null;
  /** Eggs of the whole setting in hand: no batch holds more, however its own sum stands. */
  readonly everyLeft: number;
  readonly names: ReadonlyMap<string, string>;
  readonly onChoose: (lot: string | null) => void;
}

export function TallyTabs({ view, what, day, lot, everyLeft, names, onChoose }: TallyTabsProps) {
  const tabs = [
    ...view.batches.map((one) => ({
      id: one.id,
      name: names.get(one.id) ?? "",
      sign: one.sign,
      left: Math.min(everyLeft, inHand(what, tallyBatch(one, what, day))),
    })),
    ...(view.batches.length > 1 && everyLeft > 0
      ? [{ id: null, name: words.among, sign: null, left: null }]
      : []),
  ];
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    list.current
      ?.querySelector("[aria-selected=true]")
      ?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [lot]);
  const walk = (event: KeyboardEvent & { currentTarget: HTMLElement }) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!step) return;
    const at = tabs.findIndex((tab) => tab.id === lot);
    const to = (at + step + tabs.length) % tabs.length;
    const next = tabs[to];
    if (!next) return;
    onChoose(next.id);
    event.currentTarget.querySelectorAll<HTMLElement>("[role=tab]")[to]?.focus();
  };
  return (
    <div ref={list} class="tabs" role="tablist" aria-label={words.batches} onKeyDown={walk}>
      {tabs.map((tab) => (
        <Press key={tab.id ?? "among"} role="tab" selected={tab.id === lot} onPress={() => onChoose(tab.id)}>
          {tab.name}
          {tab.sign && <span class="sign">{tab.sign}</span>}
          {tab.left !== null && <span class="left-over">{tab.left === 0 ? words.tabDone : tab.left}</span>}
        </Press>
      ))}
    </div>
  );
}
