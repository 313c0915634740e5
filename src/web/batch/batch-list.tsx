/** Every chosen photograph with its coupon and what became of it. */
import { useSyncExternalStore } from "react";
import { Link } from "wouter";
import { doubtInWords } from "../../report/figures/doubt-text.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { TextField } from "../parts/field.tsx";
import { batchText as text } from "../text/batch.ts";
import { dateText } from "../text/parts.ts";
import { onShareChange, shareSent } from "../waiting/photo-progress.ts";
import { namedPhoto } from "../waiting/send-waiting.ts";
import { type BatchRow, isUnderWay, lacksFile, rowFault, waitsToBeSent } from "./batch-rows.ts";

type Listed = {
  trial: string;
  rows: BatchRow[];
  /** The look's date of a row, as it would be written down. */
  dateOf: (row: BatchRow) => string;
  coupons: readonly string[];
  onChange: (id: string, part: Partial<BatchRow>) => void;
  onLeaveOut: (row: BatchRow) => void;
};

export function BatchList({ trial, rows, coupons, dateOf, onChange, onLeaveOut }: Listed) {
  return (
    <ol className="bare batch-list">
      {rows.map((row) => (
        <li key={row.id} className={row.isLeftOut ? "batch-row batch-left-out" : "batch-row"}>
          <CouponChoice
            row={row}
            coupons={coupons}
            fault={rowFault(row, rows)}
            onChange={onChange}
            onLeaveOut={onLeaveOut}
          />
          <Outcome trial={trial} row={row} date={dateOf(row)} onChange={onChange} />
        </li>
      ))}
    </ol>
  );
}

function CouponChoice(props: {
  row: BatchRow;
  coupons: readonly string[];
  fault: ReturnType<typeof rowFault>;
  onChange: Listed["onChange"];
  onLeaveOut: Listed["onLeaveOut"];
}) {
  const { row, coupons, fault, onChange, onLeaveOut } = props;
  const { id, name, coupon, isLeftOut, state } = row;
  const isSettled = row.isAsked || (state.is !== "chosen" && state.is !== "failed");
  return (
    <div className="batch-coupon">
      {isSettled ? (
        <b className="batch-number">{coupon}</b>
      ) : (
        <select
          aria-label={text.coupon(name)}
          aria-invalid={fault !== null || undefined}
          value={coupon ?? ""}
          disabled={isLeftOut}
          onChange={(event) => onChange(id, { coupon: event.target.value === "" ? null : event.target.value })}
        >
          <option value="">{text.none}</option>
          {coupons.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      )}
      <span className="batch-file">{name}</span>
      {fault && <small className="wrong">{text.faults[fault]}</small>}
      {isLeftOut && <small>{text.leftOut}</small>}
      {lacksFile(row) && <small>{text.chooseAgain}</small>}
      {!isSettled && (
        <button
          type="button"
          className="quiet"
          onClick={() => (isLeftOut ? onChange(id, { isLeftOut: false }) : onLeaveOut(row))}
        >
          {isLeftOut ? text.takeIn : text.leaveOut}
        </button>
      )}
    </div>
  );
}

function Outcome(props: { trial: string; row: BatchRow; date: string; onChange: Listed["onChange"] }) {
  const { trial, row, date, onChange } = props;
  const { state, coupon } = row;
  if (state.is === "measuring") return <p>{text.states.measuring}</p>;
  if (state.is === "refused" || state.is === "failed")
    return (
      <p>
        <b>{text.states[state.is]}</b> {state.why}{" "}
        {state.is === "refused" && coupon && <ByItself trial={trial} coupon={coupon} />}
      </p>
    );
  if (waitsToBeSent(row) && row.hash !== null) return <Waits hash={row.hash} />;
  if (state.is === "chosen" || isUnderWay(row)) return null;
  const { overlay, rustedPercent, edgePercent, rustPercentInterval: within, gradeSpan: span } = state.measurement;
  return (
    <div className="batch-measured">
      <img src={pictureUrl(overlay, 320)} alt={text.pictureAlt(coupon ?? "")} loading="lazy" />
      <div>
        <p>
          <b>{text.read(percentText(rustedPercent), edgePercent === null ? null : percentText(edgePercent))}</b>
        </p>
        {within && span && <p className="hint">{doubtInWords({ ...within, ...span })}</p>}
        {row.isWritten ? (
          <p>{text.written(dateText(date))}</p>
        ) : (
          <>
            <TextField
              label={row.date === null && row.photo?.takenAt ? text.takenOn : text.lookOn}
              type="date"
              value={date}
              onType={(typed) => {
                if (typed !== "") onChange(row.id, { date: typed });
              }}
              error={null}
            />
            <label className="tick">
              <input
                type="checkbox"
                checked={row.isRight}
                onChange={(event) => onChange(row.id, { isRight: event.target.checked })}
              />
              <span>{text.right}</span>
            </label>
            {!row.isRight && coupon && <ByItself trial={trial} coupon={coupon} />}
          </>
        )}
      </div>
    </div>
  );
}

function Waits({ hash }: { hash: string }) {
  const share = useSyncExternalStore(onShareChange, () => shareSent(namedPhoto(hash)));
  return <p className="hint">{share === null ? text.states.waiting : text.states.sending(share)}</p>;
}

const ByItself = ({ trial, coupon }: { trial: string; coupon: string }) => (
  <Link href={`/trials/${trial}/inspect/${encodeURIComponent(coupon)}`} className="by-itself">
    {text.byHand}
  </Link>
);
