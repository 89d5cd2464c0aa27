// A part of the season's page: what it found as its title, the table of figures and bars behind it, and what to know.
import type { ComponentChildren } from "preact";
import { Wide } from "./parts/wide.tsx";

interface SeasonTableProps {
  readonly title: string;
  readonly notes?: readonly (string | false)[];
  readonly children: ComponentChildren;
}

export function SeasonTable({ title, notes = [], children }: SeasonTableProps) {
  return (
    <section class="section">
      <h2>{title}</h2>
      <Wide label={title}>
        <table class="bars">{children}</table>
      </Wide>
      {notes.map(
        (note) =>
          note && (
            <p class="small quiet section-note" key={note}>
              {note}
            </p>
          ),
      )}
    </section>
  );
}
