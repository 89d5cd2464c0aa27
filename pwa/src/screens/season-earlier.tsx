// The season against those before it, species by species: the seasons with their intervals, each family against itself.
import { season as words } from "../app/words/season.ts";
import { type OwnWords, ownWords } from "../book/own-words.ts";
import type { SeasonAgainst, SeasonReport } from "../state/season-report.ts";
import { standing } from "../state/standing.ts";
import { Wide } from "./parts/wide.tsx";
import { RateCells, RateHeads, Seen } from "./season-rates.tsx";

export function SeasonEarlier({ report: { against, titles } }: { report: SeasonReport }) {
  if (against.length === 0) return null;
  const own = ownWords(standing.value.keeper.words);
  return (
    <section class="section">
      <h2>{titles.earlier}</h2>
      {against.map((one) => (
        <div key={one.species}>
          {against.length > 1 && <h3>{one.name}</h3>}
          <div class="beside">
            <Seasons one={one} />
            {one.families.length > 0 && <Families one={one} own={own} />}
          </div>
          {one.words && <p class="small quiet section-note">{one.words}</p>}
        </div>
      ))}
    </section>
  );
}

function Seasons({ one: { name, years } }: { one: SeasonAgainst }) {
  return (
    <Wide label={`${name}, ${words.season}`}>
      <table class="bars">
        <RateHeads of={words.season} bars={[words.hatchOfSet]} />
        <tbody>
          {years.map((row) => (
            <tr key={row.year}>
              <th scope="row">{row.year}</th>
              <td class="r">{row.set}</td>
              <RateCells rate={row.hatch_of_set} what={words.hatchOfSet} name={String(row.year)} />
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Families({ one: { name, families }, own }: { one: SeasonAgainst; own: OwnWords }) {
  const { now, earlier, apart, points } = words.before;
  return (
    <Wide label={`${name}, ${words.family(own)}`}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.family(own)}</th>
            <th scope="col">{now}</th>
            <th scope="col">{earlier}</th>
            <th scope="col">{apart}</th>
          </tr>
        </thead>
        <tbody>
          {families.map((row) => (
            <tr key={row.family}>
              <th scope="row">{row.name}</th>
              <td>{words.count(row.now.k, row.now.n)}</td>
              <td>
                <Seen rate={row.before} />
              </td>
              <td class="nowrap">{points(row.difference, row.low, row.high)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}
