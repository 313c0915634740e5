/** Which model reads a trial's photographs: every version with where it comes from, and the photographs to teach it on. */
import { useState } from "react";
import { Link } from "wouter";
import type { Measurement, ShopModelName } from "../../api/photo.ts";
import type { ListedModel } from "../../api/rust-model.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { isPercentLook, trialRecord } from "../../core/trial/trial-record.ts";
import { percentText } from "../../report/figures/number-text.ts";
import { pictureUrl } from "../inspect/measuring.ts";
import { Asked } from "../parts/asked.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { useTrial } from "../shop/queries.ts";
import { useChooseModel, useChosenModel, useRustModels } from "../shop/rust-models.ts";
import { dateText, instantText } from "../text/parts.ts";
import { readingText as text } from "../text/reading.ts";
import { OlderPart } from "./older-part.tsx";
import { sameModel, taughtBy } from "./taught-by.ts";
import "./reading.css";

export function ReadingPage({ id }: { id: string }) {
  const [trial, models, chosen] = [useTrial(id), useRustModels(), useChosenModel(id)];
  return (
    <Asked query={trial}>
      {(document) => (
        <Asked query={models}>
          {(all) => (
            <Asked query={chosen}>
              {({ shopModel, method }) => (
                <main className="reading">
                  <p className="lead">{document.name}</p>
                  <h1>{text.sentence(nameOf(shopModel))}</h1>
                  <p>{text.sentenceMore}</p>
                  <Versions key={nameOf(shopModel)} trial={id} models={all} chosen={shopModel} />
                  <OlderPart trial={document} reading={{ shopModel, method }} name={nameOf(shopModel)} />
                  <Photographs trial={document} />
                  <div className="actions">
                    <Link href={`/trials/${id}#looks`} className="button quiet">
                      {text.back}
                    </Link>
                  </div>
                </main>
              )}
            </Asked>
          )}
        </Asked>
      )}
    </Asked>
  );
}

export const nameOf = (model: ShopModelName | null): string =>
  model === null ? text.programs : text.version(model.name, model.version);

function Versions(props: { trial: string; models: ListedModel[]; chosen: ShopModelName | null }) {
  const { trial, models, chosen } = props;
  const [picked, setPicked] = useState<ShopModelName | null>(chosen);
  const choose = useChooseModel(trial);
  return (
    <>
      <fieldset className="versions">
        <legend>{text.choose}</legend>
        <Version picked={picked === null} onPick={() => setPicked(null)} title={text.programs}>
          {text.programsMore}
        </Version>
        {models.map((model) => (
          <Version
            key={nameOf(model)}
            picked={sameModel(picked, model)}
            onPick={() => setPicked({ name: model.name, version: model.version })}
            title={nameOf(model)}
          >
            {wherefrom(model, models)}
          </Version>
        ))}
      </fieldset>
      <Trouble error={choose.error} />
      {models.length > 0 && (
        <>
          <p className="hint">{text.fromNow}</p>
          <div className="actions">
            <button
              type="button"
              className="wet"
              disabled={sameModel(picked, chosen) || choose.isPending}
              onClick={() => choose.mutate({ shopModel: picked })}
            >
              {text.save}
            </button>
          </div>
        </>
      )}
    </>
  );
}

function Version(props: { picked: boolean; onPick: () => void; title: string; children: string }) {
  return (
    <label className="version">
      <input type="radio" name="version" checked={props.picked} onChange={props.onPick} />
      <span>
        <b>{props.title}</b>
        <small>{props.children}</small>
      </span>
    </label>
  );
}

function wherefrom(model: ListedModel, all: readonly ListedModel[]): string {
  const { strokes, photographs } = taughtBy(model, all);
  const refined = model.from ? text.refines(nameOf(model.from)) : text.refinesPrograms;
  const users = model.trials.length > 0 ? text.usedBy(model.trials.map(({ name }) => name)) : text.usedByNone;
  return [
    text.light(model.finishAndLight.replace(/\.$/, "")),
    `${text.taughtBy(strokes, photographs)}${refined}`,
    text.saved(model.by, instantText(model.savedAt)),
    users,
  ].join(" ");
}

/** By number and date only: which treatment a coupon has, nobody learns here. */
function Photographs({ trial }: { trial: TrialDocument }) {
  const record = trialRecord(trial, trial.observations);
  const measured = new Map(trial.measurements.map((one) => [one.id, one]));
  const shown = record.looks.flatMap(({ body }) => {
    const measurement = measured.get(body.measurement ?? "");
    return measurement && isPercentLook(body) && "date" in body.when
      ? [{ coupon: body.coupon, date: body.when.date, measurement }]
      : [];
  });
  shown.sort((a, b) => b.date.localeCompare(a.date) || a.coupon.localeCompare(b.coupon, "en", { numeric: true }));
  return (
    <section>
      <h2>{text.teachTitle}</h2>
      {shown.length === 0 && <p>{text.noPhotographs}</p>}
      <div className="teach-pictures">
        {shown.map((one) => (
          <Picture key={one.measurement.id} trial={trial.id} {...one} />
        ))}
      </div>
    </section>
  );
}

function Picture(props: { trial: string; coupon: string; date: string; measurement: Measurement }) {
  const { trial, coupon, date, measurement } = props;
  return (
    <Link href={`/trials/${trial}/reading/${measurement.id}`}>
      <img src={pictureUrl(measurement.overlay, 320)} alt="" loading="lazy" />
      <span>{text.photograph(coupon, dateText(date), percentText(measurement.rustedPercent))}</span>
    </Link>
  );
}
