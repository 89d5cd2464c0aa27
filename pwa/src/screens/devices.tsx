// Who may come into this book: each device with its role and when it was last here; named, ended, or let in.
import { useState } from "preact/hooks";
import { asking } from "../app/words/asking.ts";
import { devices as words } from "../app/words/devices.ts";
import { desk } from "../state/desk.ts";
import {
  type Device,
  type DeviceRole,
  endPairing,
  type Invitation,
  invite,
  nameDevice,
  readDevices,
} from "../state/devices.ts";
import { type Asked, useAsked } from "./asked.ts";
import { AskedPage, whenThere } from "./asked-page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { TextField } from "./parts/text-field.tsx";
import { Section } from "./section.tsx";
import { clock } from "./told-time.ts";

type Listed = Asked<readonly Device[]>;

export function DevicesScreen() {
  const asked = useAsked(readDevices);
  const { value } = asked;
  const paired = value?.filter((one) => one.revoked_ms === null) ?? [];
  const ended = value?.filter((one) => one.revoked_ms !== null) ?? [];
  return (
    <AskedPage headline={value ? words.title(paired.length) : words.waiting} asked={asked} ask={readDevices}>
      {value && (
        <>
          <ul class="rows">
            {paired.map((device) => (
              <DeviceRow key={device.id} device={device} asked={asked} />
            ))}
          </ul>
          <Invite />
          {ended.length > 0 && (
            <Section title={words.ended}>
              <ul class="rows">
                {ended.map((device) => (
                  <li key={device.id}>
                    {device.name}{" "}
                    <span class="quiet">{words.endedOn(whenThere(device.revoked_ms ?? 0))}</span>
                  </li>
                ))}
              </ul>
            </Section>
          )}
        </>
      )}
    </AskedPage>
  );
}

function DeviceRow({ device, asked }: { device: Device; asked: Listed }) {
  const [open, setOpen] = useState(false);
  const told = [
    words.roles[device.role],
    ...(device.own ? [words.own] : []),
    words.seen(whenThere(device.seen_ms)),
  ];
  return (
    <li>
      <div class="head">
        <h2>{device.name}</h2>
        <Press
          kind="bare"
          expanded={open}
          name={open ? words.close : words.change(device.name)}
          onPress={() => setOpen(!open)}
        >
          {open ? words.close : words.changing}
        </Press>
      </div>
      <p class="quiet">{told.join(", ")}</p>
      {open && <Change device={device} asked={asked} onDone={() => setOpen(false)} />}
    </li>
  );
}

function Change({ device, asked, onDone }: { device: Device; asked: Listed; onDone: () => void }) {
  const [name, setName] = useState(device.name);
  const [ending, setEnding] = useState<"end" | "lost" | null>(null);
  const { busy, act } = asked;
  const doing = async (told: ReturnType<typeof readDevices>) => {
    if (await act(told)) onDone();
  };
  return (
    <>
      <TextField label={words.name} value={name} onType={setName} most={60} />
      <div class="acts">
        <Press off={busy || !name.trim()} onPress={() => void doing(nameDevice(device.id, name.trim()))}>
          {words.rename}
        </Press>
      </div>
      {!device.own && (
        <div class="acts">
          <Press kind="plain" expanded={ending === "end"} onPress={() => setEnding("end")}>
            {words.end}
          </Press>
          <Press kind="plain" expanded={ending === "lost"} onPress={() => setEnding("lost")}>
            {words.lost}
          </Press>
        </div>
      )}
      {ending && (
        <Notice tone="watch" live>
          <p>
            {ending === "lost"
              ? words.lostTold(device.name, whenThere(device.seen_ms))
              : words.endTold(device.name)}
          </p>
          <div class="acts">
            <Press off={busy} onPress={() => void doing(endPairing(device.id, ending === "lost"))}>
              {words.sure(device.name)}
            </Press>
          </div>
        </Notice>
      )}
    </>
  );
}

const ROLES: readonly DeviceRole[] = ["helper", "reader", "keeper"];

function Invite() {
  const [role, setRole] = useState<DeviceRole>("helper");
  const [made, setMade] = useState<Invitation | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const make = async () => {
    const told = await invite(role);
    setMade(told.kind === "ok" ? told.value : null);
    setFault(told.kind === "ok" ? null : told.kind === "away" ? asking.away : told.words);
  };
  const options = ROLES.map((one) => ({ value: one, text: words.roles[one] }));
  return (
    <Section title={words.invite}>
      <Choice label={words.role} value={role} options={options} onChoose={setRole} />
      <p class="quiet">{words.rolesTell[role]}</p>
      {fault && (
        <Notice tone="watch" live>
          {fault}
        </Notice>
      )}
      {made && (
        <Notice live>
          <p class="figure">
            <b>{`${made.code.slice(0, 4)}-${made.code.slice(4)}`}</b>
          </p>
          <p>{words.type(clock(made.until_ms, desk.value?.zone() ?? "UTC"))}</p>
        </Notice>
      )}
      <div class="acts">
        <Press onPress={() => void make()}>{words.code}</Press>
      </div>
    </Section>
  );
}
