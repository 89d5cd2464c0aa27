// Who may come into this book: seen, named, ended and let in, on the server.
import * as server from "../sync/devices.ts";
import { openDesk } from "./desk.ts";
import { type Told, toldBy } from "./told.ts";

export type Device = server.Device;
export type Invitation = server.Invitation;
export type DeviceRole = Device["role"];

export const readDevices = async (): Promise<Told<readonly Device[]>> =>
  toldBy(await server.devicesNow(openDesk().ask));

export const nameDevice = async (id: string, name: string): Promise<Told<readonly Device[]>> =>
  afterwards(toldBy(await server.renameDevice(openDesk().ask, id, name)));

export const endPairing = async (id: string, lost: boolean): Promise<Told<readonly Device[]>> =>
  afterwards(toldBy(await server.endDevice(openDesk().ask, id, lost)));

export const invite = async (role: DeviceRole): Promise<Told<Invitation>> =>
  toldBy(await server.inviteDevice(openDesk().ask, role));

/** The list as it stands after an act, or why the act was not done. */
const afterwards = (told: Told<Device>): Promise<Told<readonly Device[]>> | Told<readonly Device[]> =>
  told.kind === "ok" ? readDevices() : told;
