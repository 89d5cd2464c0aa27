// The holding: its name, zone, height, units and words, changed where they were told wrong.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { holding as words } from "../app/words/holding.ts";
import { REGIONS, type Region, regionOf } from "../app/words/region.ts";
import { setup } from "../app/words/setup.ts";
import { openDesk } from "../state/desk.ts";
import { nameKeeper } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { draftOf, KeeperFields, toldBy } from "./keeper-fields.tsx";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";

export function HoldingScreen() {
  const { keeper, heads } = standing.value;
  const isTold = Boolean(heads.keeper?.length);
  const [name, setName] = useState(keeper.holding);
  const [region, setRegion] = useState<Region>(regionOf(keeper.region));
  const [draft, setDraft] = useState(() => draftOf(isTold ? keeper : { ...keeper, zone: openDesk().zone() }));
  const [saved, setSaved] = useState(false);
  const told = toldBy(draft);
  const save = () => {
    if (!name.trim() || !told) return;
    const own = { ...keeper.words, ...told.words };
    void nameKeeper({ ...keeper, ...told, words: own, holding: name.trim(), region });
    setSaved(true);
  };
  const change = <T,>(set: (value: T) => void) => {
    return (value: T) => {
      setSaved(false);
      set(value);
    };
  };
  return (
    <Page headline={words.title(keeper.holding)} under={words.under}>
      <TextField
        label={words.name}
        value={name}
        onType={change(setName)}
        fault={name.trim() ? null : setup.needHolding}
        capitals="words"
      />
      <Choice label={words.region} value={region} options={REGIONS} onChoose={change(setRegion)} />
      <KeeperFields draft={draft} onChange={change(setDraft)} />
      {saved && (
        <Notice live>
          <b>{words.saved}</b>
        </Notice>
      )}
      <div class="acts">
        <a class="press plain" href="/rooms/places">
          {words.rooms}
        </a>
        <Press kind="main" off={!name.trim() || !told} onPress={save}>
          {everywhere.save}
        </Press>
      </div>
    </Page>
  );
}
