// A hatcher's tray from above: a basket for each family, its sign on it. Drawn by us.
import { Egg } from "./egg.tsx";

interface BasketsProps {
  readonly signs: readonly string[];
  readonly name: string;
}

export function Baskets({ signs, name }: BasketsProps) {
  return (
    <div class="baskets" role="img" aria-label={name}>
      {signs.map((sign) => (
        <span class="basket" key={sign} aria-hidden="true">
          <b>{sign}</b>
          <span>
            <Egg shape="locked" lying />
            <Egg shape="locked" lying />
          </span>
          <span>
            <Egg shape="locked" lying />
            <Egg shape="pipped" lying />
          </span>
        </span>
      ))}
    </div>
  );
}
