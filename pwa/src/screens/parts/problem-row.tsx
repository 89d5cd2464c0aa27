// Something in the book that does not add up: what it is, and what settles it.
import type { ComponentChildren } from "preact";

interface ProblemRowProps {
  readonly message: string;
  readonly remedy: string;
  readonly children?: ComponentChildren;
}

export function ProblemRow({ message, remedy, children }: ProblemRowProps) {
  return (
    <li class="problem">
      <p>
        <b>{message}</b>
      </p>
      <p class="quiet">{remedy}</p>
      {children}
    </li>
  );
}
