// "When" by the clock of the holding.
import { everywhere } from "../app/words/everywhere.ts";
import { standing } from "../state/standing.ts";
import { type Moment, momentToDate } from "./parts/moment.ts";
import { WhenChooser } from "./parts/when-chooser.tsx";

/** The moment as a Date, null for now, undefined where it cannot be: see `momentToDate`. */
export const whenOf = (moment: Moment, now: Date) => momentToDate(moment, now, standing.value.keeper.zone);

interface WhenProps {
  readonly moment: Moment;
  readonly now: Date;
  readonly onChange: (moment: Moment) => void;
}

export function When({ moment, now, onChange }: WhenProps) {
  const { zone } = standing.value.keeper;
  return <WhenChooser moment={moment} now={now} zone={zone} onChange={onChange} words={everywhere.when} />;
}
