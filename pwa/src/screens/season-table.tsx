// A part of the season's page: what it found as its title, and the table of figures and bars behind it.
import type { ComponentChildren } from "preact";
import { Wide } from "./parts/wide.tsx";

export function SeasonTable({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <section class="section">
      <h2>{title}</h2>
      <Wide label={title}>
        <table class="bars">{children}</table>
      </Wide>
    </section>
  );
}
