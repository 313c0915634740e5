/** Wide keys to give a percent or a grade with a wet finger. */
import { useState } from "react";
import { d610Limits } from "../../core/rating/d610-grade.ts";
import type { ReadingWay } from "../../core/rating/eye-agreement.ts";
import { eyeText } from "../text/eye.ts";
import { readingOf, typedAfter } from "./typed-reading.ts";

export function ReadingPad({ way, onRead }: { way: ReadingWay; onRead: (read: number) => void }) {
  const [typed, setTyped] = useState("");
  const read = readingOf(way, typed);
  return (
    <form
      className="reading-pad"
      onSubmit={(event) => {
        event.preventDefault();
        if (read !== null) onRead(read);
      }}
    >
      <p className="reading-asked">
        {eyeText.question[way]}{" "}
        <output>{typed === "" ? eyeText.none : way === "percent" ? `${typed} %` : typed}</output>
      </p>
      {way === "percent" ? (
        <PercentKeys onKey={(key) => setTyped(typedAfter(typed, key))} />
      ) : (
        <GradeKeys chosen={typed} onChoose={setTyped} />
      )}
      {typed !== "" && read === null && <p className="wrong">{eyeText.tooMuch}</p>}
      <button type="submit" className="wet" disabled={read === null}>
        {eyeText.answer}
      </button>
    </form>
  );
}

const rows = ["7", "8", "9", "4", "5", "6", "1", "2", "3", eyeText.point, "0", eyeText.back];

function PercentKeys({ onKey }: { onKey: (key: string) => void }) {
  return (
    <fieldset className="eye-keys">
      <legend className="sr-only">{eyeText.keys}</legend>
      {rows.map((key) => (
        <button key={key} type="button" className="second" onClick={() => onKey(key)}>
          {key}
        </button>
      ))}
    </fieldset>
  );
}

function GradeKeys({ chosen, onChoose }: { chosen: string; onChoose: (grade: string) => void }) {
  return (
    <fieldset className="eye-keys">
      <legend className="sr-only">{eyeText.question.grade}</legend>
      {d610Limits.map(({ grade, upToPercent }) => (
        <button
          key={grade}
          type="button"
          className={chosen === String(grade) ? "" : "second"}
          aria-pressed={chosen === String(grade)}
          onClick={() => onChoose(String(grade))}
        >
          {grade} <small>{eyeText.gradeLimit(grade, upToPercent)}</small>
        </button>
      ))}
    </fieldset>
  );
}
