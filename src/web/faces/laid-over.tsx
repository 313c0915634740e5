/** Two dates of one face laid over each other, square on by their cards; a line between them is slid. */
import { useState } from "react";
import type { DatedPhotograph } from "../inspect/earlier-photographs.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { ChoiceField } from "../parts/field.tsx";
import { facesText as text } from "../text/faces.ts";
import { dateText } from "../text/parts.ts";

export function LaidOver({ photographs }: { photographs: readonly DatedPhotograph[] }) {
  const [oldAt, setOld] = useState(0);
  const [newAt, setNew] = useState(photographs.length - 1);
  const [line, setLine] = useState(50);
  const [isDrawn, setDrawn] = useState(false);
  const choices = photographs.map(({ date }, at) => ({ value: String(at), label: dateText(date) }));
  const [left, right] = [photographs[oldAt]!, photographs[newAt]!];
  const { lengthMm, widthMm } = left.measurement.request.sizeMm;
  const [leftDate, rightDate] = [dateText(left.date), dateText(right.date)];
  return (
    <section>
      <h2>{text.laidTitle}</h2>
      <div className="fields laid-dates">
        <ChoiceField label={text.left} value={String(oldAt)} choices={choices} onChoose={(at) => setOld(Number(at))} />
        <ChoiceField label={text.right} value={String(newAt)} choices={choices} onChoose={(at) => setNew(Number(at))} />
      </div>
      {isTurned(left, right) ? (
        <p>{text.turned}</p>
      ) : (
        <div style={{ width: `min(100%, calc(60dvh * ${lengthMm / widthMm}))` }}>
          <Pictures left={left} right={right} line={line} isDrawn={isDrawn} />
          <input
            type="range"
            className="laid-slider"
            min={0}
            max={100}
            value={line}
            aria-label={text.slide}
            aria-valuetext={text.slid(line, leftDate, rightDate)}
            onChange={(event) => setLine(Number(event.target.value))}
          />
          <button type="button" className="quiet" aria-pressed={isDrawn} onClick={() => setDrawn(!isDrawn)}>
            {isDrawn ? text.withoutDrawing : text.withDrawing}
          </button>
          <p className="hint">{left.measurement.card && right.measurement.card ? text.byCard : text.byHand}</p>
        </div>
      )}
    </section>
  );
}

function isTurned(one: DatedPhotograph, other: DatedPhotograph): boolean {
  const [a, b] = [one.measurement.request.sizeMm, other.measurement.request.sizeMm];
  return a.lengthMm !== b.lengthMm || a.widthMm !== b.widthMm;
}

function Pictures(props: { left: DatedPhotograph; right: DatedPhotograph; line: number; isDrawn: boolean }) {
  const { left, right, line, isDrawn } = props;
  const { lengthMm, widthMm } = left.measurement.request.sizeMm;
  const address = ({ measurement }: DatedPhotograph) =>
    pictureUrl(isDrawn ? measurement.overlay : measurement.rectified, 1280);
  return (
    <div className="laid-pictures" style={{ aspectRatio: `${lengthMm} / ${widthMm}` }}>
      <img src={address(left)} alt={text.oldAlt(dateText(left.date))} draggable={false} />
      <img
        src={address(right)}
        alt={text.oldAlt(dateText(right.date))}
        draggable={false}
        style={{ clipPath: `inset(0 0 0 ${line}%)` }}
      />
      <span className="laid-line" style={{ left: `${line}%` }} />
    </div>
  );
}
