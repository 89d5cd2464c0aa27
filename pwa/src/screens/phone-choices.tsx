// How this phone shows the app and what it does while counting. Kept on the phone, changed here and nowhere else.
import { phone as words } from "../app/words/setup.ts";
import { canStayAwake } from "../state/awake.ts";
import {
  choose,
  HANDS,
  hand,
  keepAwake,
  LETTERS,
  letters,
  sound,
  spoken,
  THEMES,
  TONES,
  theme,
  tone,
  vibration,
} from "../state/choices.ts";
import { Choice } from "./parts/choice.tsx";
import { Press } from "./parts/press.tsx";
import { Section } from "./section.tsx";

export function PhoneChoices() {
  return (
    <>
      <Section title={words.look}>
        <Choice
          label={words.theme}
          value={theme.value}
          options={THEMES.map((value) => ({ value, text: words.themes[value] }))}
          onChoose={(value) => choose("theme", value)}
        />
        <p class="quiet small section-note">{words.themeNote}</p>
        {theme.value === "hatch-room" && (
          <>
            <Choice
              label={words.tone}
              value={tone.value}
              options={TONES.map((value) => ({ value, text: words.tones[value] }))}
              onChoose={(value) => choose("tone", value)}
            />
            <p class="quiet small section-note">{words.toneNote}</p>
          </>
        )}
        <Choice
          label={words.letters}
          value={letters.value}
          options={LETTERS.map((value) => ({ value, text: words.sizes[value] }))}
          onChoose={(value) => choose("letters", value)}
        />
        <Choice
          label={words.hand}
          value={hand.value}
          options={HANDS.map((value) => ({ value, text: words.hands[value] }))}
          onChoose={(value) => choose("hand", value)}
        />
      </Section>
      <Section title={words.counting}>
        {canStayAwake() ? (
          <Switch text={words.awake} of="keepAwake" on={keepAwake.value === "yes"} />
        ) : (
          <p class="quiet">{words.noAwake}</p>
        )}
        <Switch text={words.say} of="spoken" on={spoken.value === "yes"} />
        <Switch text={words.sound} of="sound" on={sound.value === "yes"} />
        <Switch text={words.vibration} of="vibration" on={vibration.value === "yes"} />
        <p class="quiet small section-note">{words.signsNote}</p>
      </Section>
    </>
  );
}

interface SwitchProps {
  readonly text: string;
  readonly of: "keepAwake" | "spoken" | "sound" | "vibration";
  readonly on: boolean;
}

function Switch({ text, of, on }: SwitchProps) {
  return (
    <div class="check">
      <Press role="switch" checked={on} name={text} onPress={() => choose(of, on ? "no" : "yes")}>
        {on ? words.on : words.off}
      </Press>
      <span aria-hidden="true">{text}</span>
    </div>
  );
}
