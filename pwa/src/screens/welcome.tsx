// From nothing to the first setting in under two minutes: the place, the first incubator, the families.
import { useState } from "preact/hooks";
import { holding as holdingWords, places } from "../app/words/holding.ts";
import { REGIONS, type Region } from "../app/words/region.ts";
import { families as familyWords, setup as words } from "../app/words/setup.ts";
import type { Keeper, Place } from "../book/bodies.generated.ts";
import { ownWords } from "../book/own-words.ts";
import { openDesk } from "../state/desk.ts";
import { beginBook } from "../state/holding.ts";
import { goTo } from "../state/whereabouts.ts";
import { speciesOptions } from "./family-form.tsx";
import { draftOf, heightIn, KeeperFields, toldBy } from "./keeper-fields.tsx";
import { Page } from "./page.tsx";
import { Choice } from "./parts/choice.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { TextField } from "./parts/text-field.tsx";

interface Line {
  readonly name: string;
  readonly breed: string;
  readonly sign: string;
}

const EMPTY: Line = { name: "", breed: "", sign: "" };

/** Where a zone's name says so; only a first guess, changed with one tap. */
function guessRegion(zone: string): Region {
  if (/^Europe\/(London|Dublin|Belfast|Jersey|Guernsey|Isle_of_Man)$/.test(zone)) return "uk";
  if (/^(Australia\/|Pacific\/Auckland)/.test(zone)) return "au";
  return /^(America\/(New_York|Chicago|Denver|Los_Angeles|Phoenix|Detroit|Anchorage|Boise|Indiana|Kentucky)|Pacific\/Honolulu)/.test(
    zone,
  )
    ? "us"
    : "elsewhere";
}

/** What is usual there; every part of it can be changed. */
function usualOf(zone: string, region: Region): Keeper {
  const us = region === "us";
  const season_starts = region === "au" ? 7 : 1;
  return { holding: "", zone, temperature: us ? "F" : "C", mass: us ? "oz" : "g", season_starts };
}

const AIRS = ["forced", "still"] as const;

export function WelcomeScreen() {
  const zone = openDesk().zone();
  const [holding, setHolding] = useState("");
  const [region, setRegion] = useState<Region>(guessRegion(zone));
  const [draft, setDraft] = useState(() => draftOf(usualOf(zone, guessRegion(zone))));
  const [machine, setMachine] = useState("");
  const [air, setAir] = useState<NonNullable<Place["air"]> | null>(null);
  const [species, setSpecies] = useState("chicken");
  const [lines, setLines] = useState<readonly Line[]>([EMPTY]);
  const [asked, setAsked] = useState(false);
  const change = (at: number, part: Partial<Line>) =>
    setLines(lines.map((line, i) => (i === at ? { ...line, ...part } : line)));
  const chooseRegion = (to: Region) => {
    setRegion(to);
    const { temperature, mass, seasonStarts } = draftOf(usualOf(zone, to));
    const altitude = heightIn(temperature, draft);
    setDraft({ ...draft, temperature, mass, seasonStarts, altitude });
  };
  const begin = () => {
    setAsked(true);
    const told = toldBy(draft);
    if (!holding.trim() || !machine.trim() || !told) return;
    const families = lines
      .filter((line) => line.name.trim())
      .map((line) => ({
        name: line.name.trim(),
        species,
        breed: line.breed.trim() || line.name.trim(),
        sign: line.sign.trim() || null,
      }));
    void beginBook(
      { holding: holding.trim(), region, ...told },
      { name: machine.trim(), role: "incubator", air },
      families,
    );
    goTo("/rooms/set", "replace");
  };
  return (
    <Page headline={words.title} under={words.promise}>
      <TextField
        label={words.holding}
        value={holding}
        onType={setHolding}
        hint={words.holdingHint}
        fault={asked && !holding.trim() ? words.needHolding : null}
        capitals="words"
      />
      <Choice label={words.region} value={region} options={REGIONS} onChoose={chooseRegion} />
      <details>
        <summary>{holdingWords.more}</summary>
        <KeeperFields draft={draft} onChange={setDraft} />
      </details>
      <section class="section">
        <h2>{words.machineTitle}</h2>
        <TextField
          label={words.machine}
          value={machine}
          onType={setMachine}
          hint={words.machineHint}
          fault={asked && !machine.trim() ? words.needMachine : null}
        />
        <Choice
          label={places.air}
          value={air}
          options={AIRS.map((value) => ({ value, text: places.airs[value] }))}
          onChoose={setAir}
        />
      </section>
      <section class="section">
        <h2>{words.familiesTitle(ownWords({ family: draft.family }).family.many)}</h2>
        <p class="quiet">{words.familiesHint(draft.family)}</p>
        <SelectField
          label={familyWords.species}
          value={species}
          options={speciesOptions()}
          onChoose={setSpecies}
        />
        {lines.map((line, at) => (
          <div class="pair" key={at}>
            <TextField
              label={familyWords.name}
              value={line.name}
              onType={(name) => change(at, { name })}
              hint={at === 0 ? familyWords.nameHint : ""}
              capitals="words"
            />
            <TextField
              label={familyWords.breed}
              value={line.breed}
              onType={(breed) => change(at, { breed })}
              capitals="words"
            />
            <TextField
              label={familyWords.sign}
              value={line.sign}
              most={12}
              onType={(sign) => change(at, { sign })}
              capitals="characters"
            />
          </div>
        ))}
        <div class="acts">
          <Press
            kind="plain"
            onPress={() => setLines([...lines, { ...EMPTY, breed: lines.at(-1)?.breed ?? "" }])}
          >
            {familyWords.add(draft.family)}
          </Press>
        </div>
      </section>
      {asked && !toldBy(draft) && (
        <Notice tone="loss" live>
          {words.moreFault}
        </Notice>
      )}
      <div class="acts section">
        <Press kind="main" onPress={begin}>
          {words.go}
        </Press>
      </div>
      <hr />
      <h2>{words.join}</h2>
      <p class="quiet">{words.joinHint}</p>
      <div class="acts">
        <a class="press plain" href="/pair">
          {words.joinGo}
        </a>
        <a class="press plain" href="/help/start">
          {words.guide}
        </a>
      </div>
    </Page>
  );
}
