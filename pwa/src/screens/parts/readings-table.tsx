// What was read or weighed as a table behind its line, each row with its way back.
import type { ComponentChildren } from "preact";
import { Press } from "./press.tsx";
import { Wide } from "./wide.tsx";

export interface ReadingRow {
  readonly key: string;
  readonly head: string;
  readonly cells: readonly ComponentChildren[];
  /** What the button is called to a reader: "Take back: ...". */
  readonly backName: string;
  readonly onTakeBack: () => void;
}

interface ReadingsTableProps {
  readonly title: string;
  /** One for the rows' heads, then one for each cell. */
  readonly columns: readonly string[];
  readonly rows: readonly ReadingRow[];
  readonly takeBack: string;
}

export function ReadingsTable({ title, columns, rows, takeBack }: ReadingsTableProps) {
  return (
    <details>
      <summary>{title}</summary>
      <Wide label={title}>
        <table>
          <thead>
            <tr>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
              <th scope="col">
                <span class="heard">{takeBack}</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.key}>
                <th scope="row">{row.head}</th>
                {row.cells.map((cell, at) => (
                  <td key={columns[at + 1]}>{cell}</td>
                ))}
                <td class="r">
                  <Press kind="plain" name={row.backName} onPress={row.onTakeBack}>
                    {takeBack}
                  </Press>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </details>
  );
}
