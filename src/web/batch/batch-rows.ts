/** Many photographs at once: one row for each file, from "chosen" to "written down". */
import type { Measurement } from "../../api/photo.ts";
import { newId } from "../shop/new-id.ts";
import { couponOfName } from "./coupon-of-name.ts";

export type RowState =
  | { is: "chosen" }
  | { is: "sending"; share: number }
  | { is: "measuring"; share: number }
  | { is: "measured"; measurement: Measurement }
  /** Not good enough to be rated, in words; it can be taken again or its corners set by hand. */
  | { is: "refused"; why: string }
  /** The work broke off; it can be tried again. */
  | { is: "failed"; why: string }
  | { is: "written"; measurement: Measurement };

export type BatchRow = {
  id: string;
  file: File;
  /** Null: not known yet. */
  coupon: string | null;
  /** Left out by hand: neither sent nor measured. */
  isLeftOut: boolean;
  /** Its look is to be written down. */
  isRight: boolean;
  /** The look's id, made once: sent twice it is still one look. */
  look: string;
  state: RowState;
};

export function rowsOf(files: readonly File[], coupons: readonly string[]): BatchRow[] {
  return files.map((file) => ({
    ...{ id: newId(), file, coupon: couponOfName(file.name, coupons), isLeftOut: false, isRight: true, look: newId() },
    state: { is: "chosen" },
  }));
}

/** What has to be settled before the work begins. */
export function rowFault(row: BatchRow, rows: readonly BatchRow[]): "no coupon" | "twice" | null {
  if (row.isLeftOut) return null;
  if (row.coupon === null) return "no coupon";
  const same = rows.some((other) => other.id !== row.id && !other.isLeftOut && other.coupon === row.coupon);
  return same ? "twice" : null;
}

export const isToDo = ({ state, isLeftOut }: BatchRow): boolean =>
  !isLeftOut && (state.is === "chosen" || state.is === "failed");

export const isUnderWay = ({ state }: BatchRow): boolean => state.is === "sending" || state.is === "measuring";

export const isToWrite = ({ state, isRight, isLeftOut }: BatchRow): boolean =>
  !isLeftOut && state.is === "measured" && isRight;

export type BatchStanding = { all: number; done: number; refused: number; failed: number; left: number };

export function standingOf(rows: readonly BatchRow[]): BatchStanding {
  const counted = rows.filter(({ isLeftOut }) => !isLeftOut);
  const number = (...states: RowState["is"][]) => counted.filter(({ state }) => states.includes(state.is)).length;
  return {
    all: counted.length,
    done: number("measured", "written"),
    refused: number("refused"),
    failed: number("failed"),
    left: number("chosen", "sending", "measuring"),
  };
}
