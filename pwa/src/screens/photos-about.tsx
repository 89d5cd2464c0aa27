// Photos of one bird: taken here, newest first.
import { photos as words } from "../app/words/photos.ts";
import { standing } from "../state/standing.ts";
import { PhotoTold, TakePhoto } from "./photos.tsx";
import { Section } from "./section.tsx";

/** about: the identity of what is pictured. name: what a screen reader calls it. */
export function PhotosAbout({ about, name }: { about: string; name: string }) {
  const { heads, rootOf } = standing.value;
  const taken = (heads.photo ?? [])
    .filter(({ body }) => body.about && (rootOf.get(body.about) ?? body.about) === about)
    .map(({ root, atMs, body }) => ({ root, at_ms: atMs, photo: body }))
    .sort((a, b) => b.at_ms - a.at_ms);
  return (
    <Section title={words.title}>
      <TakePhoto about={about} isFirst={taken.length === 0} />
      {taken.length > 0 && (
        <ul class="pictures">
          {taken.map((one) => (
            <PhotoTold key={one.root} taken={one} place={name} isFirstPip={false} />
          ))}
        </ul>
      )}
    </Section>
  );
}
