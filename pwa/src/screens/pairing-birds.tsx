// The birds to pair: how kin to the flock, how their own hatch went, and the eggs they stand behind.
import { pairing as words } from "../app/words/pairing.ts";
import type { Hatched, PairingBird } from "../state/pairing-report.ts";
import { Wide } from "./parts/wide.tsx";

export function PairingBirds({ birds }: { birds: readonly PairingBird[] }) {
  if (birds.length === 0) return null;
  const carriers = birds.some((bird) => bird.carries.length > 0);
  return (
    <section class="section">
      <h2>{words.birds}</h2>
      <Wide label={words.birds}>
        <table class="kin">
          <thead>
            <tr>
              <th scope="col">{words.bird}</th>
              <th scope="col" class="r">
                {words.kinship}
              </th>
              <th scope="col">{words.hatch}</th>
              <th scope="col">{words.eggs}</th>
              {carriers && <th scope="col">{words.carries}</th>}
            </tr>
          </thead>
          <tbody>
            {birds.map((bird) => (
              <tr key={bird.bird}>
                <th scope="row">
                  <a href={`/families/kin/${bird.bird}`}>{bird.label}</a>
                </th>
                <td class="r">{bird.meanKinship.toFixed(3)}</td>
                <td>{hatchTold(bird.hatch)}</td>
                <td>{hatchTold(bird.eggs)}</td>
                {carriers && <td>{bird.carries.join(", ")}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}

const hatchTold = (of: Hatched | null) =>
  of === null ? "" : words.hatchTold(of.hatched, of.eggs, of.helped, of.weak);
