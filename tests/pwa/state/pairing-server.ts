import { json, ModelServer, refusal } from "../sync/model-server.ts";
import { NOW_MS } from "./surroundings.ts";

/** A server with pairing beside push and pull. */
export function servers(holding: string, demo = false) {
  const model = new ModelServer();
  model.holding = holding;
  model.server_ms = NOW_MS;
  const who = { signedIn: demo, empty: false, device: "given-1" };
  const offered: unknown[] = [];
  const answer = () =>
    json(200, {
      device: who.device,
      role: "keeper",
      holding: { id: model.holding, name: "Gorse Bank" },
      demo,
    });
  const fetch_: typeof fetch = async (input, init) => {
    const path = String(input);
    if (path === "/api/v1/pair") {
      const { code, holding: held } = JSON.parse(String(init?.body)) as { code: string; holding?: string };
      offered.push(held);
      if (code !== "GOODCODE") return refusal(401, "wrong_code");
      if (who.empty && held) model.holding = held;
      who.signedIn = true;
      return answer();
    }
    if (path === "/api/v1/me?strangers=1") return who.signedIn ? answer() : json(200, { device: null });
    if (!who.signedIn) return refusal(401, "unpaired");
    if (path === `/api/v1/devices/${who.device}` && init?.method === "DELETE") {
      who.signedIn = false;
      return json(200, { device: { id: who.device } });
    }
    return model.fetch(input, init);
  };
  return { model, who, offered, fetch: fetch_ };
}
