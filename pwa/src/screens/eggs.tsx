// Eggs before setting: how many lie there, how old, the round that brings more, and what leaves.
import { useState } from "preact/hooks";
import { eggStore as words } from "../app/words/eggs.ts";
import { families as familyWords } from "../app/words/setup.ts";
import { eggStore, type FamilyStore } from "../book/egg-store.ts";
import type { Entry } from "../book/entries.ts";
import { ownWords } from "../book/own-words.ts";
import { undo } from "../state/actions.ts";
import { standing } from "../state/standing.ts";
import { storagePoints, WORSE_AFTER_DAYS } from "../trade/storage.ts";
import { EggsGather } from "./eggs-gather.tsx";
import { EggsKeeping } from "./eggs-keeping.tsx";
import { EggsLeave } from "./eggs-leave.tsx";
import { EggsOnADay } from "./eggs-on-a-day.tsx";
import { EggsHeldBack } from "./held-back.tsx";
import { familyName } from "./names.ts";
import { useNow } from "./now.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { UndoNotice } from "./parts/undo-notice.tsx";
import { StorageWhy } from "./storage-why.tsx";
import { dayTold } from "./told-day.ts";

interface Written {
  readonly ids: readonly string[];
  readonly said: string;
}

export function EggsScreen() {
  const now_ms = useNow();
  const [open, setOpen] = useState<"gather" | "leave" | null>(null);
  const [last, setLast] = useState<Written | null>(null);
  const store = eggStore(standing.value, now_ms);
  const own = ownWords(standing.value.keeper.words).family;
  const oldest = Math.max(0, ...store.families.map((one) => one.oldestDays ?? 0));
  const noFamily = standing.value.families.size === 0;
  const saved = (entries: readonly Entry[], said: string) => {
    if (entries.length === 0) return;
    setOpen(null);
    setLast({ ids: entries.map((entry) => entry.id), said });
  };
  return (
    <Page
      headline={store.n === 0 ? words.title.none : words.title.some(store.n, oldest)}
      under={noFamily ? words.needFamily(own.one) : store.families.length === 0 ? words.emptyRemedy : null}
    >
      <EggsHeldBack today={store.on} />
      {last && (
        <UndoNotice
          said={last.said}
          word={words.undo}
          onUndo={() => {
            void undo(...last.ids);
            setLast(null);
          }}
        />
      )}
      {noFamily && (
        <div class="acts">
          <a class="press main" href="/families">
            {familyWords.add(own.one)}
          </a>
        </div>
      )}
      {!noFamily && (
        <div class="acts">
          <Press
            kind={open === "gather" ? "plain" : "main"}
            expanded={open === "gather"}
            onPress={() => setOpen(open === "gather" ? null : "gather")}
          >
            {words.gather}
          </Press>
          {store.n > 0 && (
            <>
              <Press
                kind="plain"
                expanded={open === "leave"}
                onPress={() => setOpen(open === "leave" ? null : "leave")}
              >
                {words.out}
              </Press>
              <a class="press firm" href="/rooms/set">
                {words.set}
              </a>
            </>
          )}
        </div>
      )}
      {open === "gather" && <EggsGather now_ms={now_ms} onSaved={saved} />}
      {open === "leave" && <EggsLeave store={store} onSaved={saved} />}
      {store.families.length > 0 && (
        <ul class="rows section">
          {store.families.map((one) => (
            <li key={one.family}>
              <FamilyRow store={one} />
            </li>
          ))}
        </ul>
      )}
      {store.n > 0 && <EggsOnADay store={store} />}
      <EggsKeeping />
    </Page>
  );
}

function FamilyRow({ store }: { store: FamilyStore }) {
  const { n, parcels, oldestDays } = store;
  const points = oldestDays === null ? null : storagePoints(oldestDays);
  const old = parcels.filter((one) => one.ageDays > WORSE_AFTER_DAYS).reduce((sum, one) => sum + one.n, 0);
  return (
    <div>
      <div class="head">
        <h2>{familyName(standing.value, store.family)}</h2>
        <b>{n > 0 ? words.inStore(n) : words.noneOf}</b>
      </div>
      {parcels.length > 0 && (
        <ul class="stage-list">
          {byDay(store).map(([day, eggs, age]) => (
            <li key={day}>{words.ofDay(eggs, dayTold(day), words.age(age))}</li>
          ))}
        </ul>
      )}
      {old > 0 && (
        <p>
          <b>{words.old(old, WORSE_AFTER_DAYS)}</b> {points !== null && words.cost(points.toFixed(1))}
        </p>
      )}
      {old > 0 && oldestDays !== null && <StorageWhy days={oldestDays} points={points} />}
      <p class="quiet small">{words.account(store.kept, store.out, store.set)}</p>
      {store.beyond > 0 && (
        <Notice tone="watch">
          <p>{words.beyond(store.beyond)}</p>
        </Notice>
      )}
    </div>
  );
}

function byDay({ parcels }: FamilyStore): [day: string, n: number, age: number][] {
  const days = new Map<string, [string, number, number]>();
  for (const { on, n, ageDays } of parcels) days.set(on, [on, (days.get(on)?.[1] ?? 0) + n, ageDays]);
  return [...days.values()];
}
