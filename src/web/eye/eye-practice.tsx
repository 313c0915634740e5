/** One plate after another, each with its answer as soon as it is read. */
import { useMemo, useState } from "react";
import { d610Grade } from "../../core/rating/d610-grade.ts";
import type { ReadingWay } from "../../core/rating/eye-agreement.ts";
import { platePercent, practicePlate } from "../../core/rating/rust-plate.ts";
import { newSeed } from "../shop/new-id.ts";
import { eyeText } from "../text/eye.ts";
import { PlatePicture } from "./plate-picture.tsx";
import { ReadingPad } from "./reading-pad.tsx";

export function EyePractice({ way, onStop }: { way: ReadingWay; onStop: () => void }) {
  const [seed, setSeed] = useState(newSeed);
  const recipe = useMemo(() => practicePlate(seed), [seed]);
  const [read, setRead] = useState<number | null>(null);
  const [marked, setMarked] = useState(false);
  const next = () => {
    setSeed(newSeed());
    setRead(null);
    setMarked(false);
  };
  const percent = platePercent(recipe);
  return (
    <main className="inspect eye">
      <h1 className="eye-head">{eyeText.practicePlate}</h1>
      <PlatePicture recipe={recipe} marked={marked} />
      {read === null ? (
        <ReadingPad key={seed} way={way} onRead={setRead} />
      ) : (
        <section aria-live="polite">
          <p className="sentence">
            {eyeText.truth(percent.toPrecision(2), d610Grade(percent))} {eyeText.yours[way](String(read))}
          </p>
          <div className="picture-choice">
            <button type="button" className="wet" onClick={next}>
              {eyeText.next}
            </button>
            <button type="button" className="second wet" onClick={() => setMarked(!marked)}>
              {marked ? eyeText.hideRust : eyeText.showRust}
            </button>
          </div>
        </section>
      )}
      <button type="button" className="quiet" onClick={onStop}>
        {eyeText.stop}
      </button>
    </main>
  );
}
