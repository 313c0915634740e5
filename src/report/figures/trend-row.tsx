/** A declared order of treatments, answered by one test: the sentence, every coupon in that order, what it rests on. */
import type { AnsweredQuestion, Trend } from "../../core/trial/finding.ts";
import { AtWidth, type FigureWidth } from "./at-width.tsx";
import { CouponAxis } from "./coupon-axis.tsx";
import { confoundedText, figureText, trendText } from "./figure-text.ts";
import type { Scale } from "./response-scale.ts";
import { VerdictMark } from "./verdict-mark.tsx";

export function TrendRow(props: {
  trend: Trend;
  answer: AnsweredQuestion;
  scale: Scale;
  width: FigureWidth;
  detailsOpen: boolean;
}) {
  const { trend, answer, scale, width, detailsOpen } = props;
  const bands = trend.order.map((name) => ({
    name,
    points: answer.points.filter((point) => point.treatment === name),
    witness: false,
  }));
  return (
    <article className="fig-finding" aria-label={`${trend.order.join(", ")}: ${trend.verdict}`}>
      <div className="fig-drawn">
        <p className="fig-pair">
          <VerdictMark verdict={trend.verdict} />
          <span>{figureText.declaredOrder(trend.n)}</span>
        </p>
        <h4>{trend.sentence}</h4>
        <AtWidth width={width}>
          {(widthPx) => (
            <CouponAxis bands={bands} scale={scale} kind={answer.kind} unit={answer.unit} widthPx={widthPx} />
          )}
        </AtWidth>
      </div>
      <details open={detailsOpen}>
        <summary>{figureText.details}</summary>
        <div className="fig-details">
          <h5>{figureText.restsOn}</h5>
          <ul>
            {trendText(trend).map((line) => (
              <li key={line}>{line}</li>
            ))}
            {trend.because.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
          <h5>{figureText.confusedWith}</h5>
          {answer.confounded.length === 0 && <p>{figureText.orderNotConfused}</p>}
          <ul>
            {answer.confounded.map((one) => (
              <li key={`${one.circumstance} ${one.treatments.join()}`}>{confoundedText(one)}</li>
            ))}
          </ul>
          {trend.method !== "" && (
            <p>
              {figureText.method}: {trend.method}
            </p>
          )}
        </div>
      </details>
    </article>
  );
}
