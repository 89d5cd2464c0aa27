// A part of a page under its own heading.
import type { ComponentChildren } from "preact";

export function Section({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="section">
      <h2>{title}</h2>
      {children}
    </section>
  );
}
