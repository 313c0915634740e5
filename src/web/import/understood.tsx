/** What was understood of a table, and row by row what was not. */
import type { PlainTableReading } from "../../api/plain-table.ts";
import { Scroll } from "../parts/scroll.tsx";
import { importText } from "../text/import.ts";

export function Understood({ understood }: { understood: PlainTableReading["understood"] }) {
  const { form, delimiter, decimalMark, columns } = understood;
  return (
    <details className="more" open>
      <summary>{importText.columns}</summary>
      <div className="inside">
        <p className="lead">
          {form && `${importText.form[form]}. `}
          {importText.separator(delimiter)} {decimalMark && importText.decimals(decimalMark)}
        </p>
        <Scroll label={importText.columns}>
          <table className="plain">
            <thead>
              <tr>
                <th scope="col">{importText.column}</th>
                <th scope="col">{importText.means}</th>
              </tr>
            </thead>
            <tbody>
              {columns.map(({ header, means }) => (
                <tr key={header}>
                  <th scope="row">{header}</th>
                  <td>{means ?? <span className="lead">{importText.untouched}</span>}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      </div>
    </details>
  );
}

/** More than a screenful is counted, not listed: the same mistake usually runs down a column. */
const shownProblems = 100;

/** An open question leaves cells unread too: they are not called faults before it is answered. */
export function NotUnderstood({ reading: { problems, questions } }: { reading: PlainTableReading }) {
  if (problems.length === 0) return null;
  const text = importText.problem;
  const heading = questions.length > 0 ? importText.notUnderstoodYet : importText.notUnderstood;
  return (
    <section className="trouble" aria-live="polite">
      <p>{heading(problems.length)}</p>
      <Scroll label={heading(problems.length)}>
        <table className="plain">
          <thead>
            <tr>
              <th scope="col">{text.row}</th>
              <th scope="col">{text.column}</th>
              <th scope="col">{text.value}</th>
              <th scope="col">{text.expected}</th>
            </tr>
          </thead>
          <tbody>
            {problems.slice(0, shownProblems).map(({ row, column, value, expected, settledBy }) => (
              <tr key={`${row} ${column} ${expected}`}>
                <td>{row}</td>
                <td>{column}</td>
                <td>{value}</td>
                <td>{importText.expected(expected, settledBy)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroll>
      {problems.length > shownProblems && <p>{importText.more(problems.length - shownProblems)}</p>}
    </section>
  );
}
