// Photos of a hatch, of the chicks of a batch or of a bird: newest first, each with its time and where it lies.
import { useEffect, useState } from "preact/hooks";
import { photos as words } from "../app/words/photos.ts";
import type { Photo } from "../book/bodies.generated.ts";
import { hatchSoFar } from "../book/hatch-looks.ts";
import type { Head } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { amend } from "../state/holding.ts";
import { type Occasion, type ShownPicture, takePicture, watchPicture } from "../state/pictures.ts";
import { standing } from "../state/standing.ts";
import { placeName } from "./names.ts";
import { useNow } from "./now.ts";
import { Press } from "./parts/press.tsx";
import { Dating } from "./quick-acts.tsx";
import { Section } from "./section.tsx";
import type { SettingView } from "./setting-view.ts";
import { settingOf } from "./told-heading.ts";
import { clock, dayWords } from "./told-time.ts";

/** A photo within this time of the look at which the first pip was seen is the first pip's. */
const AT_PIP_MS = 3_600_000;

/** Those of the hatch, and of the chicks that came out of it. */
export function SettingPhotos({ view }: { view: SettingView }) {
  const totals = standing.value;
  const { id, place } = view.setting;
  return (
    <Photos
      about={id}
      isOurs={(about) => settingOf(about, totals) === id}
      where={placeName(totals, place)}
      pipMs={hatchSoFar(view.setting, view.batches).firstPipMs}
    />
  );
}

interface PhotosProps {
  /** The setting, batch or bird that a photo taken here is of. */
  readonly about: string;
  /** Whether a photo of that is shown here. */
  readonly isOurs: (about: string) => boolean;
  /** For who cannot see the picture: where or whom it shows. */
  readonly where: string;
  readonly pipMs?: number | null;
}

export function Photos({ about, isOurs, where, pipMs = null }: PhotosProps) {
  const taken = (standing.value.heads.photo ?? [])
    .filter(({ body }) => body.about && isOurs(body.about))
    .sort((a, b) => b.atMs - a.atMs);
  const isAtPip = ({ atMs }: Head<"photo">) => pipMs !== null && Math.abs(atMs - pipMs) <= AT_PIP_MS;
  const firstPip = taken.filter(isAtPip).at(-1);
  return (
    <Section title={words.title}>
      <Take about={about} isFirst={taken.length === 0} />
      {taken.length > 0 && (
        <ul class="photos">
          {taken.map((one) => (
            <PhotoTold key={one.root} photo={one} where={where} isFirstPip={one === firstPip} />
          ))}
        </ul>
      )}
    </Section>
  );
}

function Take({ about, isFirst }: { about: string; isFirst: boolean }) {
  const [told, setTold] = useState<string | null>(null);
  const take = async (file: File, occasion: Occasion) => {
    setTold(words.making);
    setTold(words.became[await takePicture(file, about, occasion)]);
  };
  return (
    <>
      <div class="acts">
        <Picker text={words.take} onFile={(file) => void take(file, "now")} camera />
        <Picker text={words.choose} onFile={(file) => void take(file, "before")} />
      </div>
      <p class="quiet" role="status">
        {told ?? (isFirst ? `${words.none} ${words.privacy}` : words.privacy)}
      </p>
    </>
  );
}

interface PickerProps {
  readonly text: string;
  readonly onFile: (file: File) => void;
  /** Straight to the camera, where the phone has one; else whatever it offers, its gallery among it. */
  readonly camera?: boolean;
}

function Picker({ text, onFile, camera = false }: PickerProps) {
  return (
    <label class="press plain">
      {text}
      <input
        type="file"
        class="picker"
        accept="image/*"
        {...(camera ? { capture: "environment" } : {})}
        onChange={({ currentTarget: field }) => {
          const file = field.files?.[0];
          if (file) onFile(file);
          field.value = ""; // the same file may be chosen again
        }}
      />
    </label>
  );
}

interface PhotoToldProps {
  readonly photo: Head<"photo">;
  readonly where: string;
  readonly isFirstPip: boolean;
}

function PhotoTold({ photo: { root, atMs, body }, where, isFirstPip }: PhotoToldProps) {
  const now_ms = useNow();
  const { zone } = standing.value.keeper;
  const { sha256, width, height } = body as Photo;
  const [shown, setShown] = useState<ShownPicture | null>(null);
  const [dating, setDating] = useState(false);
  useEffect(() => watchPicture(sha256, setShown), [sha256]);
  const when = `${dayWords(atMs, zone)}, ${clock(atMs, zone)}`;
  const alt = words.alt(where, when);
  return (
    <li>
      {shown && shown.kind !== "nowhere" && (
        <div class="picture-frame">
          <img
            src={shown.url}
            width={width}
            height={height}
            alt={alt}
            onError={() => setShown({ kind: "nowhere" })}
          />
        </div>
      )}
      <p>
        <b>{isFirstPip ? `${words.firstPip}, ${when}` : when}</b>
      </p>
      {shown && <p class="quiet">{wayOf(shown)}</p>}
      <div class="acts">
        <Press
          kind="bare"
          expanded={dating}
          name={`${words.when}: ${alt}`}
          onPress={() => setDating(!dating)}
        >
          {words.when}
        </Press>
        <Press kind="bare" name={`${words.back}: ${alt}`} onPress={() => void undo(root)}>
          {words.back}
        </Press>
      </div>
      {dating && (
        <Dating
          now_ms={now_ms}
          onSave={(at) => {
            void amend(root, "photo", body as Photo, at);
            setDating(false);
          }}
        />
      )}
    </li>
  );
}

function wayOf(shown: ShownPicture): string {
  return shown.kind === "refused"
    ? words.way.refused(shown.refusal.message, shown.refusal.remedy)
    : words.way[shown.kind];
}
