/** One trial on paper: question, plan, what happened, photographs, findings, method, cautions. One self-contained page. */
import { renderToStaticMarkup } from "react-dom/server";
import { methodHeads } from "../core/method-heads.generated.ts";
import type { AnswerDetails } from "../core/trial/answer-details.ts";
import type { AnsweredQuestion } from "../core/trial/finding.ts";
import type { TrialRecord } from "../core/trial/trial-record.ts";
import type { Preferences } from "../core/units.ts";
import { capital } from "./capital.ts";
import type { FigureWidth } from "./figures/at-width.tsx";
import { LooksGridFigure, LooksReadBy } from "./figures/looks-grid.tsx";
import { looksTable, type MeasuredPicture } from "./figures/looks-table.ts";
import { QuestionFindings, type QuestionFrame } from "./figures/question-findings.tsx";
import { ReaderDetails } from "./figures/reader-details.tsx";
import { HappenedSection } from "./happened-section.tsx";
import type { OutdoorsAtSite } from "./outdoors-figures.tsx";
import { PlanSection } from "./plan-section.tsx";
import { TestsSection } from "./tests-section.tsx";
import { reportText } from "./text.ts";
import { WideTable } from "./wide-table.tsx";

export type TrialReportInput = {
  record: TrialRecord;
  answered: readonly { answer: AnsweredQuestion; frame: QuestionFrame; details: AnswerDetails }[];
  measured: readonly MeasuredPicture[];
  /** Data address of a small picture by its content hash; a missing one is left out. */
  pictures: Readonly<Record<string, string>>;
  preferences: Preferences;
  /** The strip of days of each site, with its air where a log was kept. */
  outdoors: readonly OutdoorsAtSite[];
  /** The date that stands on the paper. */
  printedOn: string;
  /** Style sheets, inlined: the file stands alone. */
  styles: readonly string[];
};

/** The width of the text column on A4 at 96 px to the inch, so that figures print at their drawn size; and that of the narrowest phone. */
const figureWidth: FigureWidth = { paperPx: 660, phonePx: 288 };

export function trialReportHtml(input: TrialReportInput): string {
  return `<!doctype html>\n${renderToStaticMarkup(<TrialReport {...input} />)}\n`;
}

function TrialReport(input: TrialReportInput) {
  const { record, answered, preferences, printedOn, styles } = input;
  return (
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        {/* Nothing is asked of a server, not even an icon. */}
        <link rel="icon" href="data:," />
        <title>{record.name}</title>
        {styles.map((css) => (
          // biome-ignore lint/security/noDangerouslySetInnerHtml: our own style sheets, read from the program's folder
          <style key={css.slice(0, 40)} dangerouslySetInnerHTML={{ __html: css }} />
        ))}
      </head>
      <body>
        <main>
          <h1>{record.name}</h1>
          <p className="quiet">{printedOn}</p>
          {record.plan.invented && <p className="invented">{reportText.invented}</p>}
          {!record.unblinded && <p>{reportText.stillBlind}</p>}
          <section>
            <h2>{reportText.question}</h2>
            <p className="lead">{record.plan.question}</p>
            {answered.flatMap(({ answer }) =>
              answerSentences(answer).map((sentence) => <p key={`${answer.response} ${sentence}`}>{sentence}</p>),
            )}
            <p>{reportText.severalQuestions(answered.length)}</p>
          </section>
          <PlanSection record={record} preferences={preferences} width={figureWidth} />
          <HappenedSection record={record} preferences={preferences} outdoors={input.outdoors} width={figureWidth} />
          <PhotographSection {...input} />
          <TestsSection record={record} />
          <FindingsSection {...input} />
          <MethodSection answered={answered} />
          <section>
            <h2>{reportText.cautions}</h2>
            <ul>
              {reportText.cautionLines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
        </main>
      </body>
    </html>
  );
}

/** An order and the comparisons of one response are two questions. */
const answerKey = ({ response, trend }: AnsweredQuestion): string => `${response} ${trend?.order.join()}`;

/** The answers to what was asked; the finishes among themselves follow with the details. */
function answerSentences({ family, control, findings, trend }: AnsweredQuestion): string[] {
  if (trend) return [trend.sentence];
  const declared = family === "control" ? findings.filter((finding) => finding.second === control) : findings;
  return declared.map((finding) => finding.sentence);
}

function PhotographSection({ record, measured, pictures }: TrialReportInput) {
  const table = looksTable(record, measured);
  if (table.rows.every((row) => row.cells.every((cell) => cell.length === 0))) return null;
  return (
    <section>
      <h2>{reportText.photographs}</h2>
      <p>{measured.length > 0 ? reportText.photographNote : reportText.noPhotographs}</p>
      <WideTable label={reportText.photographs}>
        <LooksGridFigure table={table} pictureSource={(hash) => pictures[hash] ?? null} />
      </WideTable>
      <LooksReadBy table={table} />
    </section>
  );
}

function FindingsSection({ answered }: TrialReportInput) {
  return (
    <section>
      <h2>{reportText.findings}</h2>
      <p>{answered.length > 0 ? reportText.intervals : reportText.noQuestionYet}</p>
      {answered.map(({ answer, frame }) => (
        <QuestionFindings
          key={answerKey(answer)}
          answer={answer}
          frame={frame}
          width={figureWidth}
          detailsOpen
          details={null}
        />
      ))}
    </section>
  );
}

/** What a printed finding rests on. A new response adds its methods here. */
const methodsOfFindings = [
  "climate.timeOfWetness",
  "climate.steelWarmUp",
  "survival.turnbull",
  "comparison.logRankPermutation",
  "comparison.wilcoxonExact",
  "comparison.hodgesLehmann",
  "survival.timeFactor",
  "rating.rustGradeFromAreaPercent",
  "rating.protectionRatingContinuous",
  "rating.tapeTestCrossCut",
];

function MethodSection({ answered }: Pick<TrialReportInput, "answered">) {
  const heads = methodHeads.filter((head) => methodsOfFindings.includes(head.method));
  return (
    <section>
      <h2>{reportText.method}</h2>
      <WideTable label={reportText.method}>
        <table>
          <thead>
            <tr>
              <th>What</th>
              <th>Formula</th>
              <th>Source, status</th>
              <th>Holds</th>
            </tr>
          </thead>
          <tbody>
            {heads.map((head) => (
              <tr key={head.method}>
                <td>{head.summary}</td>
                <td>{head.formula}</td>
                <td>
                  {head.source} ({head.status})
                </td>
                <td>{head.holds}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      {answered.map(({ answer, details }) => (
        <div key={answerKey(answer)}>
          <h3>{capital(answer.response)}</h3>
          <ReaderDetails details={details} open />
        </div>
      ))}
    </section>
  );
}
