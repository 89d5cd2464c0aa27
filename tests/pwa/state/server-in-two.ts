import { canonical } from "../../../pwa/src/book/wire.ts";
import { writer } from "../storage/entries-of.ts";
import { servers } from "./pairing-server.ts";

const KEEPER = { holding: "Gorse Bank", zone: "Europe/Dublin", temperature: "C", mass: "g" };
export const IN_ALL = 700;
export const A_PAGE = 500;

/** A server of a long book that gives its first page at once and the second when told to, or goes away instead. */
export function serverInTwo(away: boolean) {
  const server = servers("demo-1", true);
  const { entry } = writer("import");
  server.model.store(canonical(entry({ kind: "keeper", body: KEEPER })));
  for (let n = 1; n < IN_ALL; n += 1) server.model.store(canonical(entry()));
  let goOn = () => {};
  const asked = new Promise<void>((done) => {
    goOn = done;
  });
  const fetch_: typeof fetch = async (path, init) => {
    if (!String(path).includes("cursor")) return server.fetch(path, init);
    await asked;
    return away ? Promise.reject(new TypeError("gone")) : server.fetch(path, init);
  };
  return { fetch: fetch_, goOn };
}
