/** Coupons down, dates across: each cell the coupon's own small picture, its rust outlined, and the percent. */
import type { ReactNode } from "react";
import { scaleEnds } from "../../core/trial/scale-ends.ts";
import { isPercentLook, type Look } from "../../core/trial/trial-record.ts";
import { doubtInWords, doubtLines, doubtNote, readByText, severalReaders } from "./doubt-text.ts";
import { lookCellText, looksText, takenDownText } from "./figure-text.ts";
import type { LookCell, LooksRow, LooksTable } from "./looks-table.ts";
import { percentText } from "./number-text.ts";

type Drawing = {
  /** Address of a small picture by its content hash; null: leave the picture out. */
  pictureSource: (hash: string) => string | null;
  /** Opens a look; without it the grid is for reading only. */
  onOpen?: (lookId: string) => void;
};

export function LooksGridFigure({ table, ...drawing }: Drawing & { table: LooksTable }) {
  return (
    <table className="fig-looks">
      <thead>
        <tr>
          <th scope="col">{looksText.coupon}</th>
          {table.columns.map((column) => (
            <th key={column.key} scope="col">
              {column.label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row, at) => (
          <GridRow key={row.coupon} row={row} columns={table.columns} first={startsTreatment(table, at)} {...drawing} />
        ))}
      </tbody>
    </table>
  );
}

const startsTreatment = (table: LooksTable, at: number) =>
  table.rows[at]!.treatment !== null && table.rows[at]!.treatment !== table.rows[at - 1]?.treatment;

function GridRow(props: Drawing & { row: LooksRow; columns: LooksTable["columns"]; first: boolean }) {
  const { row, columns, first, ...drawing } = props;
  return (
    <>
      {first && (
        <tr className="fig-looks-treatment">
          <th colSpan={columns.length + 1} scope="rowgroup">
            <span>{row.treatment}</span>
          </th>
        </tr>
      )}
      <tr>
        <th scope="row">
          {row.coupon}
          {row.takenDown && <small>{takenDownText(row.takenDown)}</small>}
        </th>
        {columns.map((column, at) => (
          <td key={column.key}>
            {row.cells[at]!.map((cell) => (
              <Cell
                key={cell.look.id}
                cell={cell}
                date={column.label}
                bothFaces={row.cells[at]!.length > 1}
                {...drawing}
              />
            ))}
          </td>
        ))}
      </tr>
    </>
  );
}

const showsRust = (look: Look) =>
  isPercentLook(look) ? look.rustedPercent > 0 : look.rating !== scaleEnds[look.scale].best;

function Cell(props: Drawing & { cell: LookCell; date: string; bothFaces: boolean }) {
  const { cell, date, bothFaces, pictureSource, onOpen } = props;
  const { look, doubt } = cell;
  const source = cell.picture === null ? null : pictureSource(cell.picture);
  const inside: ReactNode = (
    <>
      {source !== null && <img src={source} alt="" loading="lazy" />}
      <span className={showsRust(look.body) ? "fig-rusted" : undefined}>
        {isPercentLook(look.body) ? `${percentText(look.body.rustedPercent)} %` : look.body.rating}
        {bothFaces && <small> {look.body.face}</small>}
        {look.corrects && <b aria-hidden="true"> ✎</b>}
      </span>
    </>
  );
  // Beside the button and not in it: its name says the same in words.
  const small = doubt && (
    <small className="fig-doubt" aria-hidden="true">
      {doubtLines(doubt).map((line) => (
        <span key={line}>{line}</span>
      ))}
    </small>
  );
  const label = `${lookCellText(look, date)}${doubt ? `, ${doubtInWords(doubt)}` : ""}`;
  if (!onOpen)
    return (
      <div className="fig-look" role="img" aria-label={label}>
        {inside}
        {small}
      </div>
    );
  return (
    <div className="fig-look">
      <button type="button" aria-label={label} onClick={() => onOpen(look.id)}>
        {inside}
      </button>
      {small}
    </div>
  );
}

/** Under the grid: what the small numbers are, and what read the photographs. */
export function LooksReadBy({ table: { readBy, confidencePercent } }: { table: LooksTable }) {
  if (readBy.length === 0) return null;
  return (
    <div className="fig-read-by">
      {confidencePercent !== null && <p>{doubtNote(confidencePercent)}</p>}
      {readBy.map((one) => (
        <p key={one.method}>{readByText(one)}</p>
      ))}
      {readBy.length > 1 && <p>{severalReaders}</p>}
    </div>
  );
}
