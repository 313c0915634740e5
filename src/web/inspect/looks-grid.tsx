/** The grid of looks on the trial page: blind until the trial is closed; a cell opens its look with its history. */
import { useState } from "react";
import type { TrialDocument } from "../../api/shop.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { LooksGridFigure } from "../../report/figures/looks-grid.tsx";
import { looksTable } from "../../report/figures/looks-table.ts";
import "../../report/figures/figures.css";
import { looksGridText } from "../text/inspect.ts";
import { LookSheet } from "./look-sheet.tsx";
import { pictureUrl } from "./measuring.ts";
import "./inspect.css";

export function LooksGrid({ trial, record }: { trial: TrialDocument; record: TrialRecord }) {
  const [open, setOpen] = useState<string | null>(null);
  if (record.looks.length === 0) return <p>{looksGridText.none}</p>;
  const look = record.looks.find((one) => one.id === open) ?? null;
  return (
    <>
      <p className="hint">{record.unblinded ? looksGridText.opened : looksGridText.blind}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: keyboards must be able to scroll what is wider than a phone */}
      <section className="scroll" tabIndex={0} aria-label={looksGridText.label}>
        <LooksGridFigure
          table={looksTable(record, trial.measurements)}
          pictureSource={(hash) => pictureUrl(hash, 160)}
          onOpen={setOpen}
        />
      </section>
      <LookSheet key={open} trial={trial} look={look} onOpen={setOpen} />
    </>
  );
}
