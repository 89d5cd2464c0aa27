// Pairing by a code that is typed: no camera, no link.
import { useState } from "preact/hooks";
import { pair as words } from "../app/words/setup.ts";
import { desk } from "../state/desk.ts";
import { type PairingOutcome, pairPhone } from "../state/pairing.ts";
import { goTo } from "../state/whereabouts.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";

const LENGTH = 8;

export function PairScreen() {
  const [code, setCode] = useState("");
  const [name, setName] = useState("");
  const [busy, setBusy] = useState(false);
  const [asked, setAsked] = useState(false);
  const [outcome, setOutcome] = useState<PairingOutcome | null>(null);
  const plain = code.replace(/[^\p{L}\p{N}]/gu, "").toUpperCase();
  const go = async () => {
    setAsked(true);
    setOutcome(null);
    if (plain.length !== LENGTH || !name.trim() || busy) return;
    setBusy(true);
    const answer = await pairPhone(plain, name.trim());
    setBusy(false);
    setOutcome(answer);
    if (answer.kind === "paired") goTo("/phone", "replace");
  };
  return (
    <Page headline={words.title} under={words.how}>
      <TextField
        label={words.code}
        value={code}
        onType={setCode}
        capitals="characters"
        most={16}
        fault={asked && plain.length !== LENGTH ? words.short : null}
        onEnter={() => void go()}
      />
      <TextField
        label={words.phoneName}
        value={name}
        onType={setName}
        hint={words.phoneNameHint}
        most={60}
        fault={asked && !name.trim() ? words.needName : null}
        onEnter={() => void go()}
      />
      {outcome && outcome.kind !== "paired" && (
        <Notice tone="loss" live>
          <Told outcome={outcome} />
        </Notice>
      )}
      <div class="acts">
        <Press kind="main" off={busy} onPress={() => void go()}>
          {busy ? words.going : words.go}
        </Press>
      </div>
      {desk.value && <p class="quiet small section">{words.safe}</p>}
    </Page>
  );
}

function Told({ outcome }: { outcome: Exclude<PairingOutcome, { kind: "paired" }> }) {
  if (outcome.kind === "refused") {
    return (
      <p>
        <b>{outcome.refusal.message}</b> {outcome.refusal.remedy}
      </p>
    );
  }
  return <p>{outcome.kind === "unreachable" ? words.away : words.notOurs}</p>;
}
