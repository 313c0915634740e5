/** Many photographs at once: one row for each file, from "chosen" to "written down". */
import type { Measurement, Photo } from "../../api/photo.ts";
import { newId } from "../shop/new-id.ts";
import { couponOfName } from "./coupon-of-name.ts";

export type RowState =
  | { is: "chosen" }
  | { is: "measuring"; share: number }
  | { is: "measured"; measurement: Measurement }
  /** Not good enough to be rated, in words; it can be taken again or its corners set by hand. */
  | { is: "refused"; why: string }
  /** The work broke off; it can be tried again. */
  | { is: "failed"; why: string };

export type BatchRow = {
  id: string;
  /** By these a file is known again when it is chosen again; when it was changed, phones say differently each time. */
  name: string;
  bytes: number;
  /** Until the queue of this device has it; after that no page needs it. */
  file: Blob | null;
  /** Its content, and its name in the queue and in the shop; null: neither has it. */
  hash: string | null;
  /** As the shop has it, once it was sent. */
  photo: Photo | null;
  /** It is to be measured as soon as the shop has it. */
  isAsked: boolean;
  /** The work's id, made before it was asked for: asked for again it is still the same work. */
  job: string | null;
  /** Null: not known yet. */
  coupon: string | null;
  /** Left out by hand: neither sent nor measured. */
  isLeftOut: boolean;
  /** Its look is to be written down. */
  isRight: boolean;
  /** The look was written down. */
  isWritten: boolean;
  /** The look's date as entered by hand; null: the photograph's own, where it has one. */
  date: string | null;
  /** The look's id, made once: sent twice it is still one look. */
  look: string;
  state: RowState;
};

export function rowsOf(files: readonly File[], coupons: readonly string[]): BatchRow[] {
  return files.map((file) => ({
    ...{ id: newId(), name: file.name, bytes: file.size, file, hash: null, photo: null, isAsked: false, job: null },
    ...{ coupon: couponOfName(file.name, coupons), isLeftOut: false, isRight: true, isWritten: false, date: null },
    ...{ look: newId(), state: { is: "chosen" } },
  }));
}

/** Files added to the rows: one that is there already is no second photograph; one that lacked its file has it again. */
export function withFiles(rows: readonly BatchRow[], files: readonly File[], coupons: readonly string[]): BatchRow[] {
  const isOf = (row: BatchRow, file: File) => row.name === file.name && row.bytes === file.size;
  const known = rows.map((row) =>
    isKept(row) ? row : { ...row, file: files.find((file) => isOf(row, file)) ?? row.file },
  );
  const strange = files.filter((file) => !rows.some((row) => isOf(row, file)));
  return [...known, ...rowsOf(strange, coupons)];
}

/** What has to be settled before the work begins. One that was refused may be taken again: it is out of the way. */
export function rowFault(row: BatchRow, rows: readonly BatchRow[]): "no coupon" | "twice" | null {
  if (!counts(row)) return null;
  if (row.coupon === null) return "no coupon";
  const same = rows.some((other) => other.id !== row.id && counts(other) && other.coupon === row.coupon);
  return same ? "twice" : null;
}

const counts = ({ isLeftOut, state }: BatchRow): boolean => !isLeftOut && state.is !== "refused";

const isOpen = ({ state, isLeftOut }: BatchRow): boolean =>
  !isLeftOut && (state.is === "chosen" || state.is === "failed");

const isKept = ({ hash, photo }: BatchRow): boolean => hash !== null || photo !== null;

/** Chosen, and not in the queue of this device yet. */
export const isToKeep = (row: BatchRow): boolean =>
  !row.isLeftOut && row.state.is === "chosen" && row.file !== null && !isKept(row);

/** Neither here nor in the shop: it has to be chosen again. */
export const lacksFile = (row: BatchRow): boolean => isOpen(row) && row.file === null && !isKept(row);

export const isToDo = (row: BatchRow): boolean => isOpen(row) && !row.isAsked && !lacksFile(row);

/** Asked for, and neither measured nor broken off. */
export const isAwaited = (row: BatchRow): boolean =>
  !row.isLeftOut && row.isAsked && !lacksFile(row) && (row.state.is === "chosen" || row.state.is === "measuring");

/** In the queue of this device: it is sent by itself. */
export const waitsToBeSent = (row: BatchRow): boolean => isOpen(row) && row.hash !== null && row.photo === null;

/** The shop has it, and it is to be measured. */
export const isToMeasure = (row: BatchRow): boolean =>
  !row.isLeftOut && row.isAsked && row.coupon !== null && row.photo !== null && row.state.is === "chosen";

export const isUnderWay = ({ state }: BatchRow): boolean => state.is === "measuring";

/** Another of the same content still needs the photograph that waits. */
export const isNeededElsewhere = (row: BatchRow, rows: readonly BatchRow[]): boolean =>
  rows.some((other) => other.id !== row.id && !other.isLeftOut && other.hash === row.hash);

export const isToWrite = ({ state, isRight, isLeftOut, isWritten }: BatchRow): boolean =>
  !isLeftOut && !isWritten && state.is === "measured" && isRight;

/** The look's date: as entered, else the day on which the photograph says that it was taken, else the one for all. */
export function lookDateOf({ date, photo }: Pick<BatchRow, "date" | "photo">, forAll: string, today: string): string {
  if (date !== null) return date;
  const taken = photo?.takenAt?.slice(0, 10);
  // A camera whose clock runs ahead does not know the day.
  return taken && taken <= today ? taken : forAll;
}

export type BatchStanding = { all: number; done: number; refused: number; failed: number; left: number };

export function standingOf(rows: readonly BatchRow[]): BatchStanding {
  const counted = rows.filter(({ isLeftOut }) => !isLeftOut);
  const number = (...states: RowState["is"][]) => counted.filter(({ state }) => states.includes(state.is)).length;
  return {
    all: counted.length,
    done: number("measured"),
    refused: number("refused"),
    failed: number("failed"),
    left: number("chosen", "measuring"),
  };
}
