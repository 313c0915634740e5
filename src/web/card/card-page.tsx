/** The measuring card to print at 1:1, and the place to write what its ruler measures. */
import { useRef, useState } from "react";
import { Link } from "wouter";
import { trialRecord } from "../../core/trial/trial-record.ts";
import type { SizeMm } from "../../core/vision/coupon-plane.ts";
import {
  type CardName,
  cardForCoupon,
  cardNames,
  largestCouponMm,
  measuringCard,
} from "../../core/vision/measuring-card.ts";
import { MeasuringCardFigure } from "../../report/figures/measuring-card-figure.tsx";
import { Asked } from "../parts/asked.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { sizeText } from "../parts/quantity.ts";
import { usePreferences, useTrial } from "../shop/queries.ts";
import { cardText } from "../text/card.ts";
import { CardRuler } from "./card-ruler.tsx";
import "./card.css";

const papers = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
} as const;
type Paper = keyof typeof papers;

export function CardPage({ trial }: { trial: string | undefined }) {
  return trial === undefined ? <CardToPrint couponMm={null} trial={null} /> : <CardOfTrial id={trial} />;
}

function CardOfTrial({ id }: { id: string }) {
  return (
    <Asked query={useTrial(id)}>
      {(trial) => <CardToPrint couponMm={trialRecord(trial, trial.observations).plan.couponSize} trial={id} />}
    </Asked>
  );
}

function CardToPrint({ couponMm, trial }: { couponMm: SizeMm | null; trial: string | null }) {
  const preferences = usePreferences();
  const fitting = couponMm && cardForCoupon(couponMm);
  const [name, setName] = useState<CardName>(fitting ?? "medium");
  const [paper, setPaper] = useState<Paper>("A4");
  const sheet = useRef<HTMLDivElement>(null);
  const lengthsText = ({ lengthMm, widthMm }: SizeMm) => sizeText([lengthMm, widthMm], preferences);
  const size = couponMm && lengthsText(couponMm);
  const words = cardText.onPrint;
  return (
    <main>
      <style>{`@page { size: ${paper} portrait; margin: 0 }`}</style>
      <div className="no-print">
        <h1>{cardText.title}</h1>
        <p>{cardText.explain}</p>
        {size && <p className="lead">{fitting ? cardText.fits(size, fitting) : cardText.fitsNone(size)}</p>}
        <div className="fields card-choices">
          <ChoiceField
            label={cardText.size}
            value={name}
            choices={cardNames.map((one) => ({
              value: one,
              label: cardText.upTo(one, lengthsText(largestCouponMm(one))),
            }))}
            onChoose={setName}
          />
          <ChoiceField
            label={cardText.paper}
            value={paper}
            choices={(["A4", "Letter"] as const).map((one) => ({ value: one, label: one }))}
            onChoose={setPaper}
          />
        </div>
        <div className="actions">
          <button type="button" onClick={() => print()}>
            {cardText.print}
          </button>
          <button
            type="button"
            className="second"
            onClick={() => saveSheet(sheet.current!.querySelector("svg")!, `measuring card ${name} ${paper}.svg`)}
          >
            {cardText.save}
          </button>
          {trial && (
            <Link href={`/trials/${trial}`} className="button quiet">
              {cardText.back}
            </Link>
          )}
        </div>
        <CardRuler />
      </div>
      <div className="card-sheet" ref={sheet}>
        <MeasuringCardFigure
          card={measuringCard(name)}
          page={papers[paper]}
          couponMm={fitting === name ? couponMm : null}
          words={{ ...words, label: words.label(name), name: words.name(name) }}
        />
      </div>
    </main>
  );
}

/** The sheet as a file of its own, millimetres and all, for a printer that this device does not reach. */
function saveSheet(svg: SVGElement, fileName: string): void {
  const link = document.createElement("a");
  link.href = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(new XMLSerializer().serializeToString(svg))}`;
  link.download = fileName;
  link.click();
}
