// The paired devices, as this phone and the server speak of them.
import type { Role } from "../storage/holding-card.ts";
import { list, moment, NotOurs, object, oneOf, orNull, text } from "./answer-parts.ts";
import type { Answer, Ask } from "./server.ts";

export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  readonly seen_ms: number;
  /** When its pairing ended; null while it may come in. */
  readonly revoked_ms: number | null;
  readonly own: boolean;
}

/** A code that pairs one device, once. */
export interface Invitation {
  readonly code: string;
  readonly role: Role;
  readonly until_ms: number;
}

const PLACE = "/api/v1/devices";
const ROLES = ["keeper", "helper", "reader"] as const;

export const devicesNow = (ask: Ask): Promise<Answer<readonly Device[]>> =>
  ask({ method: "GET", path: PLACE, parse: (value) => list(object(value).devices).map(parseDevice) });

export const renameDevice = (ask: Ask, id: string, name: string): Promise<Answer<Device>> =>
  ask({ method: "POST", path: pathOf(id), body: JSON.stringify({ name }), parse: parseChanged });

/** lost: pairing codes that were not used yet end with it. */
export const endDevice = (ask: Ask, id: string, lost: boolean): Promise<Answer<Device>> =>
  ask({ method: "DELETE", path: `${pathOf(id)}${lost ? "?lost=1" : ""}`, parse: parseChanged });

export const inviteDevice = (ask: Ask, role: Role): Promise<Answer<Invitation>> =>
  ask({
    method: "POST",
    path: "/api/v1/invitations",
    body: JSON.stringify({ role }),
    parse: (value) => {
      const { code, role: given, expires_at } = object(value);
      return { code: text(code), role: oneOf(given, ROLES), until_ms: moment(expires_at) };
    },
  });

const pathOf = (id: string) => `${PLACE}/${encodeURIComponent(id)}`;
const parseChanged = (value: unknown) => parseDevice(object(value).device);

function parseDevice(value: unknown): Device {
  const device = object(value);
  if (typeof device.this_device !== "boolean") throw new NotOurs();
  return {
    id: text(device.id),
    name: text(device.name),
    role: oneOf(device.role, ROLES),
    seen_ms: moment(device.last_seen_at),
    revoked_ms: orNull(device.revoked_at, moment),
    own: device.this_device,
  };
}
