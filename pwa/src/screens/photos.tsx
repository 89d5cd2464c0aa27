// The photos of one setting: taken here, newest first, each with its time and whether the server has it.
import { useEffect, useMemo, useState } from "preact/hooks";
import { photos as words } from "../app/words/photos.ts";
import type { Photo } from "../book/bodies.generated.ts";
import { hatchSoFar } from "../book/hatch-looks.ts";
import { undo } from "../state/actions.ts";
import { type ShownPicture, takePicture, watchPicture } from "../state/pictures.ts";
import { entries, standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";
import type { SettingView } from "./setting-view.ts";
import { tellEntries } from "./story.ts";
import { bodyOf } from "./told-entry.ts";
import { settingIn } from "./told-heading.ts";
import { clock, dayWords } from "./told-time.ts";

/** A photo within this time of the look at which the first pip was seen is the first pip's. */
const AT_PIP_MS = 3_600_000;

interface Taken {
  readonly root: string;
  readonly at_ms: number;
  readonly photo: Photo;
}

export function Photos({ view }: { view: SettingView }) {
  const totals = standing.value;
  const all = entries.value;
  const { id } = view.setting;
  const taken = useMemo(() => {
    const about = all.filter((entry) => entry.kind === "photo" && settingIn(entry, totals) === id);
    return tellEntries(about, totals.rootOf)
      .filter((one) => !one.back)
      .flatMap(({ root, entry, at_ms }): Taken[] => {
        const { sha256 = "", type = "", width = 0, height = 0 } = bodyOf(entry, "photo");
        const isWhole = /^[0-9a-f]{64}$/.test(sha256) && width > 0 && height > 0;
        return isWhole ? [{ root, at_ms, photo: { sha256, type, width, height } }] : [];
      })
      .sort((a, b) => b.at_ms - a.at_ms);
  }, [all, totals, id]);
  const pip_ms = hatchSoFar(view.setting, view.batches).firstPipMs;
  const isAtPip = ({ at_ms }: Taken) => pip_ms !== null && Math.abs(at_ms - pip_ms) <= AT_PIP_MS;
  const firstPip = taken.filter(isAtPip).at(-1);
  return (
    <Section title={words.title}>
      <TakePhoto about={id} isFirst={taken.length === 0} />
      {taken.length > 0 && (
        <ul class="pictures">
          {taken.map((one) => (
            <PhotoTold
              key={one.root}
              taken={one}
              place={placeName(totals, view.setting.place)}
              isFirstPip={one === firstPip}
            />
          ))}
        </ul>
      )}
    </Section>
  );
}

export function TakePhoto({ about, isFirst }: { about: string; isFirst: boolean }) {
  const [told, setTold] = useState<string | null>(null);
  const take = async (file: File) => {
    setTold(words.making);
    setTold(words.became[await takePicture(file, about)]);
  };
  return (
    <>
      <div class="acts">
        <label class="press plain">
          {words.take}
          <input
            type="file"
            class="picker"
            accept="image/*"
            capture="environment"
            onChange={({ currentTarget: field }) => {
              const file = field.files?.[0];
              if (file) void take(file);
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
      </div>
      <p class="quiet" role="status">
        {told ?? (isFirst ? `${words.none} ${words.privacy}` : words.privacy)}
      </p>
    </>
  );
}

interface PhotoToldProps {
  readonly taken: Taken;
  readonly place: string;
  readonly isFirstPip: boolean;
}

export function PhotoTold({ taken: { root, at_ms, photo }, place, isFirstPip }: PhotoToldProps) {
  const { zone } = standing.value.keeper;
  const { sha256, width, height } = photo;
  const [shown, setShown] = useState<ShownPicture | null>(null);
  useEffect(() => watchPicture(sha256, setShown), [sha256]);
  const when = `${dayWords(at_ms, zone)}, ${clock(at_ms, zone)}`;
  return (
    <li>
      {shown && shown.kind !== "nowhere" && (
        <div class="picture-frame">
          <img
            src={shown.url}
            width={width}
            height={height}
            alt={words.alt(place, when)}
            onError={() => setShown({ kind: "nowhere" })}
          />
        </div>
      )}
      <p>
        <b>{isFirstPip ? `${words.firstPip}, ${when}` : when}</b>
      </p>
      {shown && <p class="quiet">{wayOf(shown)}</p>}
      <Press kind="bare" name={`${words.back}: ${words.alt(place, when)}`} onPress={() => void undo(root)}>
        {words.back}
      </Press>
    </li>
  );
}

function wayOf(shown: ShownPicture): string {
  return shown.kind === "refused"
    ? words.way.refused(shown.refusal.message, shown.refusal.remedy)
    : words.way[shown.kind];
}
