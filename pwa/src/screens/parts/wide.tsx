// What may be wider than a phone, a table most often: it scrolls by itself, also from the keyboard.
import type { ComponentChildren } from "preact";

export function Wide({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable without a pointer
    <section class="tables" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
