// One number in sight from an arm's length away.

interface BigCountProps {
  readonly over: string;
  readonly count: number;
  readonly under: string;
}

export function BigCount({ over, count, under }: BigCountProps) {
  return (
    <p class="big-count">
      <span class="quiet">{over}</span>
      <span class="figure" role="status">
        {count}
      </span>
      <span class="quiet">{under}</span>
    </p>
  );
}
