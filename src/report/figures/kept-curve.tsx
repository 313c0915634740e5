/** The chance curve that was kept with a plan: figure, sentences, every number with its error, and how it was made. */
import { mostCoupons } from "../../core/trial/chance-curve.ts";
import { wantedChance } from "../../core/trial/chance-words.ts";
import { responseName } from "../../core/trial/declared-question.ts";
import { familyWords } from "../../core/trial/family-words.ts";
import { keptMethodWords, keptRows, keptSentences } from "../../core/trial/kept-curve-words.ts";
import type { KeptPoint, Simulation } from "../../core/trial/simulation.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { capital } from "../capital.ts";
import { AtWidth, type FigureWidth } from "./at-width.tsx";
import { ChanceFigure } from "./chance-figure.tsx";
import { figureText } from "./figure-text.ts";

const text = figureText.keptCurve;

export const keptTitle = ({ declared }: Simulation): string =>
  capital(`${responseName(declared)}, ${familyWords(declared)}`);

export function KeptCurve({
  curve,
  record,
  width,
}: {
  curve: Simulation;
  record: Pick<TrialRecord, "plans">;
  width: FigureWidth;
}) {
  const { points, each } = curve;
  const wording = record.plans.find((one) => one.id === curve.plan)?.body.plan;
  const blocked = wording?.places.some((place) => place.block !== null) ?? false;
  return (
    <>
      {keptSentences(curve).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <AtWidth width={width}>
        {(widthPx) => (
          <ChanceFigure
            points={points.map((point) => ({ each: point.each, line: point.line, chance: point.shown }))}
            handle={each}
            most={Math.max(mostCoupons, ...points.map((point) => point.each))}
            widthPx={widthPx}
            wanted={wantedChance}
            title={text.title(each)}
          />
        )}
      </AtWidth>
      <PointsTable curve={curve} />
      {keptMethodWords(curve, blocked).map((sentence) => (
        <p key={sentence} className="quiet hint">
          {sentence}
        </p>
      ))}
    </>
  );
}

function PointsTable({ curve }: { curve: Simulation }) {
  const several = curve.points.some((point) => point.line === "all");
  return (
    <table className="plain">
      <caption>{text.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{text.each}</th>
          <th scope="col">{several ? text.one : text.alone}</th>
          {several && <th scope="col">{text.all}</th>}
          <th scope="col">{text.trials}</th>
        </tr>
      </thead>
      <tbody>
        {keptRows(curve).map(({ each, one, all }) => (
          <tr key={each}>
            <th scope="row">{each === curve.each ? text.planned(each) : each}</th>
            <td>{shareWords(one)}</td>
            {several && <td>{shareWords(all)}</td>}
            <td>{[...new Set([one, all].flatMap((point) => (point ? [point.trials] : [])))].join(", ")}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** "79 % ± 0.9": one standard error, as the table's caption says. */
const shareWords = (point: KeptPoint | null): string =>
  point === null ? "-" : `${(100 * point.shown.share).toFixed(0)}\u00a0% ± ${(100 * point.shown.error).toFixed(1)}`;
