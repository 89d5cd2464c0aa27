// A strip with one small egg for each egg of a batch.
import { useMemo } from "preact/hooks";
import { Egg } from "./egg.tsx";
import { type EggCount, type EggGroup, groupEggs } from "./egg-rows.ts";

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
        <Group key={group.upTo} {...group} lying={lying} />
      ))}
      {note && <span class="quiet small">{note}</span>}
    </div>
  );
}

/** Drawn again only when one of its own eggs changed: of hundreds of eggs a tap changes one. */
function Group({ eggs, upTo, lying }: EggGroup & { lying: boolean }) {
  return useMemo(
    () => (
      <span class="egg-group">
        {eggs.map((shape, at) => (
          <Egg key={at} shape={shape} lying={lying} />
        ))}
        <span class="egg-number">{upTo}</span>
      </span>
    ),
    [eggs.join(), upTo, lying],
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
