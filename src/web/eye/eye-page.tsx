/** Training and testing an inspector's eye on plates of known rust. Phone first. */
import { useState } from "react";
import { type ReadingWay, readingWays } from "../../core/rating/eye-agreement.ts";
import { platesOfTest } from "../../core/rating/rust-plate.ts";
import { useDraft } from "../keep/draft.ts";
import { newId, newSeed } from "../shop/new-id.ts";
import { eyeText } from "../text/eye.ts";
import { EyePractice } from "./eye-practice.tsx";
import { EyeResults } from "./eye-results.tsx";
import { EyeTestRun } from "./eye-test-run.tsx";
import "../inspect/inspect.css";
import "./eye.css";

const fresh = () => ({ id: newId(), seed: newSeed(), way: "percent", read: [] as number[] });

export function EyePage() {
  const [doing, setDoing] = useState<"choosing" | "practising" | "testing">("choosing");
  // Kept on this device: a phone that goes to sleep at plate 12 goes on at plate 12.
  const draft = useDraft("eye test", fresh);
  const way: ReadingWay = readingWays.find((one) => one === draft.form.way) ?? "percent";
  const test = () => {
    // The draw of the plates is kept before the first is seen.
    draft.change(draft.form);
    setDoing("testing");
  };
  const stop = () => setDoing("choosing");
  if (doing === "practising") return <EyePractice way={way} onStop={stop} />;
  if (doing === "testing")
    return (
      <EyeTestRun
        taken={{ ...draft.form, way }}
        onRead={(read) => draft.change({ ...draft.form, read: [...draft.form.read, read] })}
        onDone={() => {
          draft.clear();
          // The next test is given as this one was.
          if (way !== "percent") draft.change({ way });
          stop();
        }}
        onStop={stop}
      />
    );
  const begun = draft.form.read.length > 0;
  return (
    <main className="inspect">
      <h1>{eyeText.title}</h1>
      <p className="sentence">{eyeText.sentence}</p>
      <WayChoice way={way} disabled={begun} onChoose={(chosen) => draft.change({ ...draft.form, way: chosen })} />
      <div className="picture-choice">
        <button type="button" className="wet" onClick={test}>
          {begun ? eyeText.goOn(Math.min(platesOfTest, draft.form.read.length + 1)) : eyeText.test}
        </button>
        <button type="button" className="second wet" onClick={() => setDoing("practising")}>
          {eyeText.practise}
        </button>
        {begun && (
          <button type="button" className="quiet" onClick={draft.clear}>
            {eyeText.throwAway}
          </button>
        )}
      </div>
      <EyeResults />
    </main>
  );
}

function WayChoice(props: { way: ReadingWay; disabled: boolean; onChoose: (way: ReadingWay) => void }) {
  return (
    <fieldset className="choices" disabled={props.disabled}>
      <legend>{eyeText.way}</legend>
      {readingWays.map((one) => (
        <label key={one}>
          <input type="radio" name="way" checked={one === props.way} onChange={() => props.onChoose(one)} />
          <span>{eyeText.ways[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}
