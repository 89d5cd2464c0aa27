// A few lines the keeper should see: a rule at the side, no box. A caution is worded, its colour only underlines it.
import type { ComponentChildren } from "preact";

interface NoticeProps {
  readonly tone?: "plain" | "watch" | "loss";
  readonly children: ComponentChildren;
  readonly live?: boolean;
}

export function Notice({ tone = "plain", children, live = false }: NoticeProps) {
  return (
    <div class={`notice ${tone}`} role={live ? "status" : undefined}>
      {children}
    </div>
  );
}
