// The machines that run this are slow at times: what is waited for may take longer than the second that is usual.
import { vi } from "vitest";

const waitFor = vi.waitFor;
vi.waitFor = (found, options) =>
  waitFor(found, typeof options === "number" ? options : { timeout: 10_000, ...options });
