/** One question answered: every coupon of the trial first, then a row for each comparison, then what was assumed. */
import type { AnswerDetails } from "../../core/trial/answer-details.ts";
import type { AnsweredQuestion, Effect, Finding } from "../../core/trial/finding.ts";
import { capital } from "../capital.ts";
import { AtWidth, type FigureWidth } from "./at-width.tsx";
import { CouponAxis } from "./coupon-axis.tsx";
import { type EffectScale, effectScale } from "./effect-scale.ts";
import { confoundedText, figureText, verdictCount } from "./figure-text.ts";
import { FindingRow } from "./finding-row.tsx";
import { ReaderDetails } from "./reader-details.tsx";
import { responseScale } from "./response-scale.ts";
import { TrendRow } from "./trend-row.tsx";

/** What the drawing needs of the question beside its answer. */
export type QuestionFrame = {
  better: "higher" | "lower";
  scale: { best: number; worst: number } | null;
  declared: boolean;
};

export function QuestionFindings(props: {
  answer: AnsweredQuestion;
  frame: QuestionFrame;
  width: FigureWidth;
  detailsOpen: boolean;
  /** Other tests for the reader; null: not computed yet, or printed elsewhere. */
  details: AnswerDetails | null;
}) {
  const { answer, frame, width, detailsOpen, details } = props;
  const scale = responseScale(answer.kind, answer.points, frame.scale);
  const effects = effectScales(answer, frame);
  return (
    <section className="fig-question" aria-label={answer.response}>
      <h3>{capital(answer.response)}</h3>
      {answer.trend === undefined && (
        <p className="fig-count">
          {answer.findings.length > 0 ? verdictCount(answer.findings) : figureText.noComparison}
        </p>
      )}
      {!frame.declared && <p className="fig-count">{figureText.exploratory}</p>}
      {answer.trend ? (
        <TrendRow trend={answer.trend} {...{ answer, scale, width, detailsOpen }} />
      ) : (
        <Overview answer={answer} scale={scale} width={width} />
      )}
      {answer.findings.map((finding) => (
        <FindingRow
          key={`${finding.first} ${finding.second}`}
          finding={finding}
          answer={answer}
          scale={scale}
          effects={finding.effect ? (effects.get(finding.effect.name) ?? null) : null}
          width={width}
          detailsOpen={detailsOpen}
        />
      ))}
      {details && <ReaderDetails details={details} open={detailsOpen} />}
      <Assumed answer={answer} />
    </section>
  );
}

/** Every treatment on the one axis. With a single pair and no witness its own row already shows them all. */
function Overview(props: { answer: AnsweredQuestion; scale: ReturnType<typeof responseScale>; width: FigureWidth }) {
  const { answer, scale, width } = props;
  const names = [...new Set(answer.points.map((point) => point.treatment))];
  if (names.length === 0 || (answer.findings.length > 0 && names.length < 3)) return null;
  const ordered = names.sort((a, b) => Number(answer.witnesses.includes(a)) - Number(answer.witnesses.includes(b)));
  const bands = ordered.map((name) => ({
    name,
    points: answer.points.filter((point) => point.treatment === name),
    witness: answer.witnesses.includes(name),
  }));
  return (
    <figure className="fig-overview">
      <figcaption>{figureText.allCoupons}</figcaption>
      <AtWidth width={width}>
        {(widthPx) => (
          <CouponAxis bands={bands} scale={scale} kind={answer.kind} unit={answer.unit} widthPx={widthPx} />
        )}
      </AtWidth>
    </figure>
  );
}

function effectScales(answer: AnsweredQuestion, frame: QuestionFrame): Map<Effect["name"], EffectScale> {
  const names = new Set(answer.findings.flatMap((finding: Finding) => (finding.effect ? [finding.effect.name] : [])));
  const question = { kind: answer.kind, better: frame.better };
  return new Map([...names].map((name) => [name, effectScale(name, answer.findings, question)]));
}

function Assumed({ answer }: { answer: AnsweredQuestion }) {
  const lines = [
    ...answer.notes,
    ...(answer.overall ? [figureText.overall(answer.overall.p, answer.overall.method)] : []),
    ...answer.confounded.map(confoundedText),
  ];
  if (lines.length === 0) return null;
  return (
    <div className="fig-notes">
      <h4>{figureText.notes}</h4>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}
