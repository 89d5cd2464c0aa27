// Whether the server answers, and what its clock says.
import { NotOurs, object, whole } from "./answer-parts.ts";
import type { Answer, Ask } from "./server.ts";

/** The server's clock, in milliseconds since 1970. */
export const serverClock = (ask: Ask): Promise<Answer<number>> =>
  ask({
    method: "GET",
    path: "/healthz",
    parse: (value) => {
      const { ok, server_ms } = object(value);
      if (ok !== true) throw new NotOurs();
      return whole(server_ms);
    },
  });
