// The calendar, as this phone and the server speak of it.
import { list, moment, NotOurs, object, orNull, text } from "./answer-parts.ts";
import type { Answer, Ask } from "./server.ts";

export interface CalendarEvent {
  /** Where the server gives it as a file. */
  readonly path: string;
  readonly at_ms: number;
  readonly title: string;
  readonly words: string;
}

/** on: this phone's feed has an address. read_ms: when a calendar last read it. path: told when it is made, only then. */
export interface Feed {
  readonly on: boolean;
  readonly read_ms: number | null;
  readonly path: string | null;
  readonly events: readonly CalendarEvent[];
}

const PLACE = "/api/v1/calendar";

export const calendarNow = (ask: Ask): Promise<Answer<Feed>> =>
  ask({ method: "GET", path: PLACE, parse: parseFeed });

export const makeCalendar = (ask: Ask): Promise<Answer<Feed>> =>
  ask({ method: "POST", path: PLACE, body: "{}", parse: parseFeed });

export const endCalendar = (ask: Ask): Promise<Answer<Feed>> =>
  ask({ method: "DELETE", path: PLACE, parse: parseFeed });

function parseFeed(value: unknown): Feed {
  const { on, read_at, path = null, events } = object(value);
  if (typeof on !== "boolean") throw new NotOurs();
  return {
    on,
    read_ms: orNull(read_at, moment),
    path: orNull(path, text),
    events: list(events).map((one) => {
      const event = object(one);
      return {
        path: `${PLACE}/${encodeURIComponent(text(event.uid))}.ics`,
        at_ms: moment(event.at),
        title: text(event.title),
        words: text(event.words),
      };
    }),
  };
}
