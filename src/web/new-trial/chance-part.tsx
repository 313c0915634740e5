/** How many coupons of each: a curve of what they could show, with a handle to drag and the sentence beside it. */
import { useDeferredValue } from "react";
import { ChanceBoard } from "../outlook/chance-board.tsx";
import { chanceRefusal } from "../outlook/chance-plan.ts";
import { chanceText } from "../text/chance.ts";
import { chanceWish, couponsTyped, withEach } from "./chance-form.ts";
import { ExpectedFields, ScatterField } from "./expected-fields.tsx";
import type { FormPart } from "./trial-form.ts";

export function ChancePart({ form, change }: FormPart) {
  const wish = chanceWish(form);
  const { declared } = wish;
  const coupons = wish.plan && couponsTyped(form, wish.plan);
  const refusal = wish.plan && chanceRefusal(wish.plan);
  return (
    <section className="chance-part" aria-labelledby="chance-title">
      <h3 id="chance-title">{chanceText.title}</h3>
      <p className="lead">{chanceText.explain}</p>
      {declared && <ExpectedFields form={form} change={change} declared={declared} />}
      {wish.missing !== null && <p className="hint">{chanceText.missing[wish.missing]}</p>}
      {refusal && <p className="wrong">{refusal}</p>}
      {wish.plan && !refusal && coupons && (
        <Board
          plan={JSON.stringify(wish.plan)}
          coupons={coupons}
          onEach={(each) => change(withEach(form, wish.plan, each))}
          onBlocks={(blocks) => change({ blocks: String(blocks) })}
        />
      )}
      {declared && wish.missing !== "control" && <ScatterField form={form} change={change} declared={declared} />}
    </section>
  );
}

/** The curve follows the handle at once and the typing when there is time. */
function Board(props: {
  plan: string;
  coupons: { each: number; unequal: boolean };
  onEach: (each: number) => void;
  onBlocks: (blocks: number) => void;
}) {
  const plan = useDeferredValue(props.plan);
  return <ChanceBoard {...props} plan={plan} />;
}
