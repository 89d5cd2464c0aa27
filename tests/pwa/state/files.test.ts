import { describe, expect, it } from "vitest";
import { takeFile } from "../../../pwa/src/state/files.ts";
import { refusal } from "../sync/model-server.ts";

const answering = (answer: () => Promise<Response>) =>
  takeFile("/api/v1/x.pdf", answer as unknown as typeof fetch);

describe("a file that the server makes", () => {
  it("comes with its bytes and the name the server gave it", async () => {
    const headers = { "Content-Disposition": 'inline; filename="broodline-season-2026.pdf"' };
    const told = await answering(async () => new Response("%PDF-1.7", { headers }));
    if (told.kind !== "ok") throw new Error(told.kind);
    expect([told.value.name, await told.value.file.text()]).toEqual([
      "broodline-season-2026.pdf",
      "%PDF-1.7",
    ]);
  });

  it("is told in the server's words where it is refused, and as away where nothing of ours came", async () => {
    const refused = await answering(async () => refusal(404, "not_found"));
    expect(refused.kind).toBe("refused");
    expect((await answering(async () => new Response("<html>Sign in</html>"))).kind).toBe("away");
    expect((await answering(() => Promise.reject(new TypeError("no network")))).kind).toBe("away");
    expect((await answering(async () => new Response("<h1>502</h1>", { status: 502 }))).kind).toBe("away");
  });
});
