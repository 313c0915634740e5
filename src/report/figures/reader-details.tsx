/** Other tests and checks for who wants to look closer. They decide nothing. */
import type { AnswerDetails, Detail } from "../../core/trial/answer-details.ts";
import { figureText } from "./figure-text.ts";

/** Folded on the page; on paper it is open and stands with the method. */
export function ReaderDetails({ details, open }: { details: AnswerDetails; open: boolean }) {
  const comparisons = details.comparisons.filter((one) => one.details.length > 0);
  if (details.whole.length === 0 && comparisons.length === 0) return null;
  return (
    <details className="fig-reader" open={open}>
      <summary>{figureText.forTheReader}</summary>
      <div className="fig-details">
        <p>{figureText.decidesNothing}</p>
        <DetailList details={details.whole} />
        {comparisons.map(({ first, second, details: own }) => (
          <div key={`${first} ${second}`}>
            <h4>{figureText.pair(first, second)}</h4>
            <DetailList details={own} />
          </div>
        ))}
      </div>
    </details>
  );
}

function DetailList({ details }: { details: readonly Detail[] }) {
  return (
    <ul>
      {details.map(({ name, says }) => (
        <li key={`${name} ${says}`}>
          {name}: {says}
        </li>
      ))}
    </ul>
  );
}
