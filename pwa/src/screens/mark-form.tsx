// One act of marking: how, what, how many, when; looked at once more as one chick before it is written.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { tagInWords, websInWords, marks as words } from "../app/words/marks.ts";
import { young } from "../app/words/species.ts";
import { record } from "../state/actions.ts";
import { webs as websAllowed } from "../state/choices.ts";
import { RING_COLOURS } from "../trade/marking.ts";
import { type Leg, nextFreeRing, type Pattern } from "../trade/marks.ts";
import { MarkInstead } from "./mark-instead.tsx";
import { MarkTag, type TagChoice } from "./mark-tag.tsx";
import { type MarkView, ringsWorn, sharers } from "./mark-view.ts";
import { MarkWebs } from "./mark-webs.tsx";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Choice } from "./parts/choice.tsx";
import { FeetPreview } from "./parts/foot.tsx";
import { type Moment, NOW } from "./parts/moment.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { Stepper } from "./parts/stepper.tsx";
import { When, whenOf } from "./when.tsx";

const TAGS = ["ring", "wing", "web", "chip"] as const;
type Way = "webs" | (typeof TAGS)[number];

export function MarkForm({ view, ring }: { view: MarkView; ring: string }) {
  const now = new Date(useNow());
  const mayPunch = websAllowed.value === "yes";
  const free = nextFreeRing(RING_COLOURS, ringsWorn(view.beside));
  const [way, setWay] = useState<Way>(mayPunch && view.bird === null ? "webs" : "ring");
  const [webs, setWebs] = useState<Pattern>([]);
  const [soles, setSoles] = useState(false);
  const [tag, setTag] = useState<TagChoice>({
    colour: free?.colour ?? "",
    leg: free?.leg ?? "left",
    text: "",
  });
  const [n, setN] = useState(Math.max(1, view.toMark));
  const [moment, setMoment] = useState<Moment>(NOW);
  const [instead, setInstead] = useState("");
  const [checking, setChecking] = useState(false);
  const shown = mayPunch || way !== "webs" ? way : "ring";
  const built = shown === "webs" ? null : tagOf(shown, tag);
  const what = shown === "webs" ? websInWords(webs) : built ? tagInWords(built, ring) : "";
  const isNumbered = Boolean(built?.text);
  const count = isNumbered ? 1 : Math.min(n, Math.max(view.alive, 1));
  const at = whenOf(moment, now);
  const ready = (shown === "webs" ? webs.length > 0 : built !== null) && at !== undefined;
  const save = () => {
    if (!ready) return;
    const mark = shown === "webs" ? { webs: [...webs] } : { tag: built };
    const whose = view.bird
      ? { bird: view.bird.id, ...(instead && built ? { replaces: instead } : {}) }
      : { lot: view.lot?.id ?? null, n: count };
    void record("marked", { ...whose, ...mark }, at ? { at } : {});
    setInstead("");
    setChecking(false);
    setTag({ ...tag, text: "" });
    setN(Math.max(1, view.toMark - count));
    setMoment(NOW);
  };
  const ways: readonly Way[] = mayPunch ? ["webs", ...TAGS] : TAGS;
  if (checking) {
    return (
      <section class="section" aria-label={words.check.label}>
        <h2>{view.bird ? words.bird.check(view.named, what) : words.check.one(view.named, what)}</h2>
        {shown === "webs" && <FeetPreview punched={webs} mirrored={soles} />}
        <Shared view={view} webs={shown === "webs" ? webs : []} tag={built} />
        <div class="acts mark-keys">
          <Press kind="plain" onPress={() => setChecking(false)}>
            {words.check.back}
          </Press>
          <Press kind="main" onPress={save}>
            {view.bird ? words.bird.yes(view.named) : words.check.yes(count, view.named)}
          </Press>
        </div>
      </section>
    );
  }
  return (
    <section class="section" aria-label={words.mark}>
      <Choice
        label={words.ways.label}
        value={shown}
        options={ways.map((value) => ({
          value,
          text: value === "ring" ? words.ways.ring(ring) : words.ways[value],
        }))}
        onChoose={setWay}
      />
      {shown === "webs" ? (
        <MarkWebs view={view} webs={webs} soles={soles} onWebs={setWebs} onSoles={setSoles} />
      ) : (
        <MarkTag view={view} kind={shown} ring={ring} tag={tag} built={built} onTag={setTag} />
      )}
      {view.bird && shown !== "webs" && (
        <MarkInstead view={view} ring={ring} value={instead} onChoose={setInstead} />
      )}
      {!isNumbered && view.bird === null && (
        <div class="field">
          <span class="label">{words.howMany}</span>
          <Stepper
            label={words.howMany}
            value={count}
            least={1}
            most={Math.max(1, view.alive)}
            onChange={setN}
            words={everywhere}
          />
        </div>
      )}
      <When moment={moment} now={now} onChange={setMoment} />
      <div class="acts mark-keys">
        <Press kind="main" off={!ready} onPress={() => setChecking(true)}>
          {words.go(view.bird ? view.named : young(count, view.species))}
        </Press>
      </div>
    </section>
  );
}

/** What a batch in the same place wears, said before chicks mix; nothing is held up by it. */
function Shared({ view, webs, tag }: { view: MarkView; webs: Pattern; tag: ReturnType<typeof tagOf> }) {
  const { same, bare } = sharers(view, webs, tag);
  const place = placeName(view.standing, view.place);
  return (
    <>
      {same.map((name) => (
        <Notice key={name} tone="watch">
          <p>{words.clash(name, place)}</p>
        </Notice>
      ))}
      {bare.map((name) => (
        <p key={name} class="quiet">
          {words.unmarkedBeside(name, place)}
        </p>
      ))}
    </>
  );
}

/** The tag as it is written, or null where nothing on it tells it from another. */
function tagOf(kind: (typeof TAGS)[number], { colour, leg, text }: TagChoice) {
  const said = text.trim();
  if (kind === "ring") {
    const worn: { kind: "ring"; leg: Leg; colour?: string; text?: string } = { kind, leg };
    if (colour) worn.colour = colour;
    if (said) worn.text = said;
    return colour || said ? worn : null;
  }
  return said ? { kind, text: said } : null;
}
