// What the chicks of a batch wear now, as a later look at it asks for: each pattern, each kind of ring. Pure.

import type { Tag } from "../book/bodies.generated.ts";
import { type Mark, replacedMarks } from "../book/marks-of-lots.ts";
import { type Pattern, patternKey, patternOf } from "../trade/marks.ts";
import type { MarkView } from "./mark-view.ts";

/** n: how many that are alive wear it, at most. */
export interface WebsWorn {
  readonly webs: Pattern;
  readonly n: number;
}

/** Rings of one colour and leg, whatever number is on each. tag: without it. marks: that tell of them. */
export interface RingsWorn {
  readonly tag: Tag;
  readonly n: number;
  readonly marks: readonly Mark[];
}

/** Each pattern that is still worn, in the order in which they were given. */
export function websWorn(view: MarkView): readonly WebsWorn[] {
  const punched = stillWorn(view).filter(({ webs }) => webs.length > 0);
  return grouped(punched, ({ webs }) => patternKey(patternOf(webs))).map((marks) => ({
    webs: patternOf(marks[0].webs),
    n: wearing(view, marks),
  }));
}

/** Each colour and leg of rings that are still worn, in the order in which they were given. */
export function ringsWornBy(view: MarkView): readonly RingsWorn[] {
  const ringed = stillWorn(view).filter(({ tag }) => tag?.kind === "ring");
  const looks = ({ tag }: Mark) => JSON.stringify([tag?.colour?.toLowerCase(), tag?.leg]);
  return grouped(ringed, looks).map((marks) => {
    const { colour = null, leg = null } = marks[0].tag ?? {};
    return { tag: { kind: "ring", colour, leg }, n: wearing(view, marks), marks };
  });
}

function stillWorn({ marks, standing }: MarkView): readonly Mark[] {
  const isGone = replacedMarks(standing);
  return marks.filter(({ entry, recheck }) => !recheck && !isGone(entry));
}

function wearing({ alive }: MarkView, marks: readonly Mark[]): number {
  return Math.min(
    alive,
    marks.reduce((sum, { n }) => sum + (n ?? alive), 0),
  );
}

type AtLeastOne<T> = readonly [T, ...T[]];

function grouped(marks: readonly Mark[], key: (mark: Mark) => string): readonly AtLeastOne<Mark>[] {
  const groups = new Map<string, [Mark, ...Mark[]]>();
  for (const mark of marks) {
    const group = groups.get(key(mark));
    if (group === undefined) groups.set(key(mark), [mark]);
    else group.push(mark);
  }
  return [...groups.values()];
}
