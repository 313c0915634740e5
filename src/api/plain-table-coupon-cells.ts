/** What each row says about its coupon, whatever the table measures. */
import type { CouponCells } from "../core/trial/plain-table.ts";
import type { RowCells } from "./plain-table-cells.ts";

/** `circumstances`: headers of the columns that the user named. */
export function couponCells(cells: RowCells, circumstances: readonly string[]): CouponCells {
  return {
    row: cells.row,
    coupon: cells.required("coupon", "the coupon's number or name"),
    treatment: cells.required("treatment", "the name of a treatment"),
    block: cells.text("block"),
    batch: cells.text("batch"),
    site: cells.text("site"),
    rackRow: placeOf(cells.text("row")),
    rackColumn: placeOf(cells.text("column")),
    edge: cells.text("edge"),
    inspector: cells.text("inspector"),
    deviation: cells.text("deviation"),
    circumstances: Object.fromEntries(circumstances.map((header) => [header, cells.named(header)])),
  };
}

/** Rows and columns of a rack are counted, or lettered. */
const placeOf = (text: string | null): string | number | null =>
  text !== null && /^\d+$/.test(text) ? Number(text) : text;
