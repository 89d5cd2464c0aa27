// One number in sight from an arm's length away.

interface BigCountProps {
  readonly count: number;
  readonly under: string;
}

export function BigCount({ count, under }: BigCountProps) {
  return (
    <p class="big-count">
      <span class="figure" role="status">
        {count}
      </span>
      <span class="quiet">{under}</span>
    </p>
  );
}
