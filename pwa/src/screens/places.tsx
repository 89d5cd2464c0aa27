// Every room, machine, store and hen: named, changed, with what is known of it.
import { useState } from "preact/hooks";
import { everywhere } from "../app/words/everywhere.ts";
import { places as words } from "../app/words/holding.ts";
import type { Place } from "../book/bodies.generated.ts";
import { addPlace, amend } from "../state/holding.ts";
import { standing } from "../state/standing.ts";
import { Page } from "./page.tsx";
import { Press } from "./parts/press.tsx";
import { PlaceForm } from "./place-form.tsx";

export function PlacesScreen() {
  const [open, setOpen] = useState<string | null>(null);
  const { places } = standing.value;
  const adding = open === "new" || places.size === 0;
  const close = () => setOpen(null);
  return (
    <Page headline={places.size === 0 ? words.title.none : words.title.some(places.size)}>
      {adding && (
        <section class="section" aria-label={words.add}>
          <PlaceForm
            onSave={(place) => {
              void addPlace(place);
              close();
            }}
            {...(places.size > 0 ? { onCancel: close } : {})}
          />
        </section>
      )}
      {places.size > 0 && (
        <ul class="rows">
          {[...places].map(([id, place]) => (
            <li key={id}>
              {open === id ? (
                <PlaceForm
                  start={place}
                  onSave={(changed) => {
                    void amend(id, "place", changed);
                    close();
                  }}
                  onCancel={close}
                />
              ) : (
                <PlaceRow place={place} onChange={() => setOpen(id)} />
              )}
            </li>
          ))}
        </ul>
      )}
      {!adding && (
        <div class="acts">
          <Press kind="main" onPress={() => setOpen("new")}>
            {words.add}
          </Press>
        </div>
      )}
    </Page>
  );
}

function PlaceRow({ place, onChange }: { place: Place; onChange: () => void }) {
  const told = [
    words.roles[place.role],
    place.air ? words.airs[place.air].toLowerCase() : null,
    place.turns ? `${words.turns.toLowerCase()} ${words.turnings[place.turns].toLowerCase()}` : null,
    place.capacity ? words.holds(place.capacity) : null,
  ];
  return (
    <div class="row-act">
      <div>
        <h2>{place.name}</h2>
        <p class="quiet">{told.filter((part) => part !== null).join(", ")}</p>
      </div>
      <Press kind="bare" name={words.change(place.name)} onPress={onChange}>
        {everywhere.change}
      </Press>
    </div>
  );
}
