// What the new eggs would meet where they are to go: named before saving, never in the way of it.
import { capital } from "../app/words/capital.ts";
import { clash as words } from "../app/words/set.ts";
import { type Clash, clashesOf, type Newcomer } from "../book/sharing.ts";
import { inStage, type Setting } from "../book/standing.ts";
import { standing } from "../state/standing.ts";
import { sourceTitle } from "../trade/sources.ts";
import { inASentence } from "../trade/species.ts";
import { placeName } from "./names.ts";
import { Notice } from "./parts/notice.tsx";
import { Why } from "./parts/why.tsx";
import { speciesName } from "./species-name.ts";
import { dateWords, dayWords } from "./told-time.ts";
import { degreesTold, warmthTold } from "./told-warmth.ts";

export function Clashes({ newcomer }: { newcomer: Newcomer }) {
  const found = clashesOf(standing.value, newcomer);
  if (found.length === 0) return null;
  return (
    <Notice tone="watch">
      <h2>{words.title}</h2>
      {found.map((one) => (
        <p key={`${one.what} ${"setting" in one ? one.setting.id : ""}`}>{capital(told(one))}</p>
      ))}
      {found.some(({ what }) => what === "their_lockdown" || what === "own_lockdown") && (
        <p>{words.remedy(hatcher(newcomer.place))}</p>
      )}
      <p class="quiet">{words.still}</p>
      {found.some(({ what }) => what === "warmth" || what === "moisture") && (
        <Why
          about={words.warmthWhy.about}
          formula={words.warmthWhy.formula}
          sources={[
            { title: sourceTitle("TAMU") ?? "TAMU", status: "mirror" },
            { title: sourceTitle("MSU-F") ?? "MSU-F", status: "seen" },
          ]}
        />
      )}
      {found.some(({ what }) => what === "hen_full") && (
        <Why
          about={words.henWhy.about}
          formula={words.henWhy.formula}
          sources={[{ title: sourceTitle("FAO04") ?? "FAO04", status: "seen" }]}
        />
      )}
    </Notice>
  );
}

function told(found: Clash): string {
  const { temperature, zone } = standing.value.keeper;
  switch (found.what) {
    case "full":
      return words.full(found.n, found.capacity);
    case "hen_full":
      return words.henFull(found.n, found.most, found.better);
    case "no_turning":
      return words.noTurning;
    case "warmth":
      return words.warmth(
        degreesTold(found.newC, temperature),
        degreesTold(found.theirsC, temperature),
        other(found.setting),
      );
    case "moisture":
      return words.moisture(
        warmthTold(found.newF, temperature),
        warmthTold(found.theirsF, temperature),
        other(found.setting),
      );
    case "their_lockdown":
      return words.theirLockdown(other(found.setting), dayWords(found.atMs, zone), found.day);
    case "own_lockdown":
      return words.ownLockdown(other(found.setting), dayWords(found.atMs, zone), found.day);
    case "hen_leaves":
      return words.henLeaves(other(found.setting), found.days);
  }
}

/** "the 14 duck eggs of 1 March". */
function other(setting: Setting): string {
  const n = Math.max(0, inStage(setting, "set")) + Math.max(0, inStage(setting, "locked"));
  const when = dateWords(setting.setAtMs, standing.value.keeper.zone);
  return words.other(n, inASentence(speciesName(setting.species)), when);
}

/** A hatcher elsewhere, by name. */
function hatcher(place: string): string | null {
  const found = [...standing.value.places].find(([id, one]) => one.role === "hatcher" && id !== place);
  return found ? placeName(standing.value, found[0]) : null;
}
