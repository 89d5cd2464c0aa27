// Which words fit under an incubation strip: the more important keep their place, the others drop. Never an overlap.

export interface StripLabel {
  readonly text: string;
  /** Where the label points, in px from the left. */
  readonly x: number;
  /** 1 is placed first. */
  readonly rank: number;
  /** Stands before x rather than around it, so that what comes after x finds room. */
  readonly before?: boolean;
}

export interface PlacedLabel extends StripLabel {
  readonly left: number;
  readonly width: number;
}

/**
 * Places labels in one line of `span` px. `charWidth` is a generous width of one character in px.
 * Each label tries to stand around x, then before it, then after it; if none is free it is left out.
 */
export function placeLabels(
  labels: readonly StripLabel[],
  span: number,
  charWidth: number,
  gap = 8,
): PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  const byRank = labels
    .map((label, at) => ({ label, at }))
    .sort((a, b) => a.label.rank - b.label.rank || a.at - b.at);
  for (const { label } of byRank) {
    const width = label.text.length * charWidth;
    if (width > span) continue;
    const inside = (left: number) => Math.min(Math.max(left, 0), span - width);
    const [middle, before, after] = [label.x - width / 2, label.x - width, label.x];
    const free = (label.before ? [before, middle, after] : [middle, before, after])
      .map(inside)
      .find((left) =>
        placed.every((other) => left + width + gap <= other.left || other.left + other.width + gap <= left),
      );
    if (free !== undefined) placed.push({ ...label, left: free, width });
  }
  return placed.sort((a, b) => a.left - b.left);
}
