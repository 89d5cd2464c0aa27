// A strip with one small egg for each egg of a batch.
import { Egg } from "./egg.tsx";
import { type EggCount, groupEggs } from "./egg-rows.ts";

interface EggStripProps {
  readonly upright: readonly EggCount[];
  readonly out: readonly EggCount[];
  /** The whole strip in one sentence, for a screen reader. */
  readonly name: string;
  readonly uprightNote?: string;
  readonly outNote?: string;
}

function Row({
  counts,
  lying,
  note,
}: {
  counts: readonly EggCount[];
  lying: boolean;
  note: string | undefined;
}) {
  const groups = groupEggs(counts);
  if (groups.length === 0) return null;
  return (
    <div class="egg-row">
      {groups.map((group) => (
        <span class="egg-group" key={group.upTo}>
          {group.eggs.map((shape, at) => (
            <Egg key={at} shape={shape} lying={lying} />
          ))}
          <span class="egg-number">{group.upTo}</span>
        </span>
      ))}
      {note && <span class="quiet small">{note}</span>}
    </div>
  );
}

export function EggStrip({ upright, out, name, uprightNote, outNote }: EggStripProps) {
  return (
    <div class="egg-strip" role="img" aria-label={name}>
      <Row counts={upright} lying={false} note={uprightNote} />
      <Row counts={out} lying={true} note={outNote} />
    </div>
  );
}
