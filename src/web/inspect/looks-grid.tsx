/** The grid of looks on the trial page: blind until the trial is closed; a cell opens its look with its history. */
import { useState } from "react";
import type { Measurement } from "../../api/photo.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { LooksGridFigure, LooksReadBy } from "../../report/figures/looks-grid.tsx";
import { looksTable } from "../../report/figures/looks-table.ts";
import "../../report/figures/figures.css";
import { looksGridText } from "../text/inspect.ts";
import { firstOfLook } from "./earlier-photographs.ts";
import { LookSheet } from "./look-sheet.tsx";
import { pictureUrl } from "./measuring.ts";
import "./inspect.css";

/** On a phone the newest looks are in sight first; earlier ones lie to the left. */
function showNewest(grid: HTMLElement | null) {
  if (grid) grid.scrollLeft = grid.scrollWidth;
}

export function LooksGrid({ record, measurements }: { record: TrialRecord; measurements: Measurement[] }) {
  const [open, setOpen] = useState<string | null>(null);
  if (record.looks.length === 0) return null;
  const table = looksTable(record, measurements);
  const look = record.looks.find((one) => one.id === open) ?? null;
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: keyboards must be able to scroll what is wider than a phone */}
      <section className="scroll" tabIndex={0} aria-label={looksGridText.label} ref={showNewest}>
        <LooksGridFigure table={table} pictureSource={(hash) => pictureUrl(hash, 160)} onOpen={setOpen} />
      </section>
      <LooksReadBy table={table} />
      <LookSheet
        key={open}
        trialId={record.id}
        look={look}
        measurements={measurements}
        unblinded={record.unblinded}
        first={look && firstOfLook(record, measurements, look)}
        onOpen={setOpen}
      />
    </>
  );
}
