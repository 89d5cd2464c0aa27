/*
 * "Why?" beside any figure: opens how it is reckoned, from what, and where that was read.
 *
 *   <Why
 *     about="Fertile"
 *     formula="Fertile eggs out of those examined."
 *     inputs={[{ name: "Examined", value: "14" }]}
 *     sources={[{ title: "Wilson 1927", status: "memory" }]}
 *   />
 *
 * Without state of its own, texts from the words of the screen that asks. `status` is that of the figure's cell in the
 * tables; where there is none, name the title alone. Use `sourceTitle` of trade/sources.ts for a key of the tables.
 */
import type { ComponentChildren } from "preact";
import { type SourceStatus, why as words } from "../../app/words/why.ts";

export interface WhyInput {
  readonly name: string;
  /** With its unit, as printed beside the figure. */
  readonly value: string;
}

export interface WhySource {
  readonly title: string;
  readonly status?: SourceStatus;
}

interface WhyProps {
  /** What the figure is, so that a screen reader tells one "Why?" from the next. */
  readonly about: string;
  /** How it is reckoned, in a sentence or as a sum. */
  readonly formula: ComponentChildren;
  readonly inputs?: readonly WhyInput[];
  readonly sources?: readonly WhySource[];
  /** What else to know, below. */
  readonly children?: ComponentChildren;
}

export function Why({ about, formula, inputs = [], sources = [], children }: WhyProps) {
  return (
    <details>
      <summary>
        {words.ask}
        <span class="heard">{` ${about}`}</span>
      </summary>
      <p class="quiet">{formula}</p>
      {inputs.length > 0 && (
        <ul class="lines">
          {inputs.map(({ name, value }) => (
            <li key={name}>
              <span>{name}</span>
              <span>{value}</span>
            </li>
          ))}
        </ul>
      )}
      {sources.map(({ title, status }) => (
        <p class="quiet small" key={title}>
          {words.from(title, status ? words.status[status] : null)}
        </p>
      ))}
      {children}
    </details>
  );
}
