/** One comparison: the sentence, every coupon, the interval against the margin. Draws what it is given. */
import type { AnsweredQuestion, Finding } from "../../core/trial/finding.ts";
import { AtWidth, type FigureWidth } from "./at-width.tsx";
import { CouponAxis } from "./coupon-axis.tsx";
import { EffectAxis } from "./effect-axis.tsx";
import type { EffectScale } from "./effect-scale.ts";
import {
  cannotExcludeText,
  chanceText,
  confoundedText,
  figureText,
  looksOfNextText,
  unitsText,
  wouldTellText,
} from "./figure-text.ts";
import { MethodNote } from "./method-note.tsx";
import type { Scale } from "./response-scale.ts";
import { VerdictMark } from "./verdict-mark.tsx";

export function FindingRow(props: {
  finding: Finding;
  answer: AnsweredQuestion;
  scale: Scale;
  effects: EffectScale | null;
  width: FigureWidth;
  detailsOpen: boolean;
}) {
  const { finding, answer, scale, effects, width, detailsOpen } = props;
  const bands = [finding.first, finding.second].map((name) => ({
    name,
    points: answer.points.filter((point) => point.treatment === name),
    witness: false,
  }));
  return (
    <article className="fig-finding" aria-label={`${finding.first}, ${finding.second}: ${finding.verdict}`}>
      <div className="fig-drawn">
        <p className="fig-pair">
          <VerdictMark verdict={finding.verdict} />
          <span>
            {finding.first} against {finding.second}, {figureText.units(...finding.n)}
          </span>
        </p>
        <h4>{finding.sentence}</h4>
        <AtWidth width={width}>
          {(widthPx) => (
            <>
              <CouponAxis bands={bands} scale={scale} kind={answer.kind} unit={answer.unit} widthPx={widthPx} />
              {effects ? (
                <EffectAxis finding={finding} kind={answer.kind} scale={effects} widthPx={widthPx} />
              ) : (
                <p className="fig-none">{figureText.noEffect}</p>
              )}
            </>
          )}
        </AtWidth>
      </div>
      <details open={detailsOpen}>
        <summary>{figureText.details}</summary>
        <FindingDetails finding={finding} answer={answer} withWhy={!detailsOpen} />
      </details>
    </article>
  );
}

function FindingDetails(props: { finding: Finding; answer: AnsweredQuestion; withWhy: boolean }) {
  const { finding, answer, withWhy } = props;
  const both = [finding.first, finding.second];
  const confounded = answer.confounded.filter((one) => one.treatments.every((name) => both.includes(name)));
  const settle = wouldTellText(finding.wouldTell);
  const looks = looksOfNextText(answer);
  const chance = chanceText(finding);
  return (
    <div className="fig-details">
      <h5>{figureText.restsOn}</h5>
      <ul>
        <li>{unitsText(finding)}</li>
        {chance !== "" && <li>{chance}</li>}
        {finding.because.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
      <h5>{figureText.confusedWith}</h5>
      {confounded.length === 0 ? (
        <p>{figureText.notConfused}</p>
      ) : (
        <ul>
          {confounded.map((one) => (
            <li key={`${one.circumstance} ${one.treatments.join()}`}>{confoundedText(one)}</li>
          ))}
        </ul>
      )}
      <h5>{figureText.cannotExclude}</h5>
      <p>{cannotExcludeText(finding)}</p>
      {settle.length > 0 && <h5>{figureText.wouldSettle}</h5>}
      {settle.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {settle.length > 0 && looks !== null && <p>{looks}</p>}
      <MethodNote kind={answer.kind} method={finding.method} withWhy={withWhy} />
    </div>
  );
}
