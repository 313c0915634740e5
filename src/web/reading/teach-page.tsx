/** Strokes on a measured photograph: tried, seen before and after, and kept as a version of the shop's own model. */
import { useMutation } from "@tanstack/react-query";
import { useState } from "react";
import { Link, useLocation } from "wouter";
import type { BrushStroke, Measurement, ShopModelName } from "../../api/photo.ts";
import { type ListedModel, strokesToTry, type TriedStrokes, triedStrokes } from "../../api/rust-model.ts";
import { percentText } from "../../report/figures/number-text.ts";
import type { BrushTool } from "../inspect/brush-board.tsx";
import { useStrokes } from "../inspect/inspection-state.ts";
import { pictureUrl, useMeasurement } from "../inspect/measuring.ts";
import { Painting } from "../inspect/painting.tsx";
import "../inspect/inspect.css";
import { AskedInside } from "../parts/asked.tsx";
import { ChoiceField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json } from "../shop/ask.ts";
import { useTrial } from "../shop/queries.ts";
import { useChosenModel, useRustModels } from "../shop/rust-models.ts";
import { teachText as text } from "../text/reading.ts";
import { KeepVersion } from "./keep-version.tsx";
import { nameOf } from "./reading-page.tsx";
import { sameModel } from "./taught-by.ts";

export function TeachPage({ trial, measurement }: { trial: string; measurement: string }) {
  const [query, models, chosen, known] = [
    useMeasurement(measurement),
    useRustModels(),
    useChosenModel(trial),
    useTrial(trial),
  ];
  const look = known.data?.observations.find(({ body }) => body.kind === "look" && body.measurement === measurement);
  return (
    <main className="inspect reading">
      <h1>{text.title(look?.body.kind === "look" ? look.body.coupon : null)}</h1>
      <p>{text.sentence}</p>
      <AskedInside query={query}>
        {(measured) => (
          <AskedInside query={models}>
            {(all) => (
              <AskedInside query={chosen}>
                {({ shopModel }) => <Teaching trial={trial} measurement={measured} models={all} chosen={shopModel} />}
              </AskedInside>
            )}
          </AskedInside>
        )}
      </AskedInside>
    </main>
  );
}

const tools: readonly BrushTool[] = ["rust", "not rust", "move"];
type Teach = { trial: string; measurement: Measurement; models: ListedModel[]; chosen: ShopModelName | null };

function Teaching({ trial, measurement, models, chosen }: Teach) {
  const [, navigate] = useLocation();
  const [strokes, setStrokes] = useStrokes(`teach ${measurement.id}`);
  const [from, setFrom] = useState<ShopModelName | null>(chosen);
  const back = `/trials/${trial}/reading`;
  const both = (["rust", "not rust"] as const).every((kind) => strokes.some(({ paint }) => paint === kind));
  const attempt = useMutation({
    mutationFn: async (asked: { strokes: BrushStroke[]; from: ShopModelName | null }) => ({
      asked,
      found: await tryStrokes(measurement.id, asked),
    }),
  });
  const tried = attempt.data;
  const isStale = tried !== undefined && (tried.asked.strokes !== strokes || !sameModel(tried.asked.from, from));
  return (
    <>
      {models.length > 0 && <FromChoice models={models} from={from} onChoose={setFrom} />}
      <Painting
        measurement={measurement}
        tools={tools}
        strokes={strokes}
        onChange={setStrokes}
        missing={both || strokes.length === 0 ? null : text.needsBoth}
      />
      {!both && <p className="hint">{text.needsBoth}</p>}
      <Trouble error={attempt.error} />
      <div className="actions">
        <button
          type="button"
          className="wet"
          disabled={!both || attempt.isPending}
          onClick={() => attempt.mutate({ strokes, from })}
        >
          {attempt.isPending ? text.trying : text.tryIt}
        </button>
        <Link href={back} className="button quiet">
          {text.back}
        </Link>
      </div>
      {tried && (
        <section aria-live="polite">
          <BeforeAfter measurement={measurement} found={tried.found} />
          {isStale ? (
            <p className="hint">{text.stale}</p>
          ) : (
            <KeepVersion
              trial={trial}
              measurement={measurement.id}
              strokes={strokes}
              from={from}
              onKept={() => {
                setStrokes([]);
                navigate(back);
              }}
            />
          )}
        </section>
      )}
    </>
  );
}

const tryStrokes = (measurement: string, { strokes, from }: { strokes: BrushStroke[]; from: ShopModelName | null }) =>
  ask(
    triedStrokes,
    `/api/measurements/${measurement}/model-preview`,
    json("POST", strokesToTry.parse({ strokes, ...(from ? { from } : {}) })),
  );

function FromChoice(props: {
  models: ListedModel[];
  from: ShopModelName | null;
  onChoose: (from: ShopModelName | null) => void;
}) {
  const { models, from, onChoose } = props;
  const known = [null, ...models.map(({ name, version }) => ({ name, version }))];
  return (
    <ChoiceField
      label={text.from}
      value={String(known.findIndex((one) => sameModel(one, from)))}
      choices={known.map((one, at) => ({ value: String(at), label: nameOf(one) }))}
      onChoose={(at) => onChoose(known[Number(at)] ?? null)}
    />
  );
}

function BeforeAfter({ measurement, found }: { measurement: Measurement; found: TriedStrokes }) {
  const { lengthMm, widthMm } = measurement.request.sizeMm;
  const style = { aspectRatio: `${lengthMm} / ${widthMm}` };
  return (
    <>
      <div className="before-after">
        <figure>
          <figcaption>
            <b>{text.before}</b>
            <br />
            {text.read(percentText(measurement.rustedPercent), measurement.d610)}
          </figcaption>
          <img style={style} src={pictureUrl(measurement.overlay, 1280)} alt={text.beforeAlt} />
        </figure>
        <figure>
          <figcaption>
            <b>{text.after}</b>
            <br />
            {text.read(percentText(found.rustedPercent), found.d610)}
          </figcaption>
          <img style={style} src={found.overlay} alt={text.afterAlt} />
        </figure>
      </div>
      <p className="hint">{text.caution}</p>
    </>
  );
}
