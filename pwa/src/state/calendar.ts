// The calendar of what is due: asked of the server each time its page is opened.
import * as server from "../sync/calendar.ts";
import { openDesk } from "./desk.ts";
import { type Told, toldBy } from "./told.ts";

export type Feed = server.Feed;

export const readCalendar = async (): Promise<Told<Feed>> => toldBy(await server.calendarNow(openDesk().ask));
export const newCalendar = async (): Promise<Told<Feed>> => toldBy(await server.makeCalendar(openDesk().ask));
export const stopCalendar = async (): Promise<Told<Feed>> => toldBy(await server.endCalendar(openDesk().ask));
