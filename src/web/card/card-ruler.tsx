/** What the printed ruler of 100 mm measures: asked once, kept for the whole shop. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { Trouble } from "../parts/trouble.tsx";
import { json, tell } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { useShop } from "../shop/queries.ts";
import { cardText } from "../text/card.ts";

export function CardRuler() {
  const known = useShop().data?.cardRulerMm ?? null;
  const [typed, setTyped] = useState("");
  const [lacking, setLacking] = useState(false);
  const client = useQueryClient();
  const save = useMutation({
    mutationFn: (cardRulerMm: number) => tell("/api/shop/card-ruler", json("PUT", { cardRulerMm })),
    onSuccess: () => {
      setTyped("");
      return client.invalidateQueries({ queryKey: ["shop"] });
    },
  });
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        const mm = typedNumber(typed);
        setLacking(mm === null);
        if (mm !== null) save.mutate(mm);
      }}
    >
      <h2>{cardText.rulerTitle}</h2>
      <p>{cardText.rulerExplain}</p>
      <NumberField
        label={cardText.ruler}
        unit="mm"
        value={typed}
        onType={setTyped}
        hint={known === null ? cardText.rulerUnknown : cardText.rulerKept(`${known} mm`)}
        error={lacking ? cardText.rulerWrong : errorAt(save.error, "/cardRulerMm")}
      />
      <Trouble error={save.error} shown={["/cardRulerMm"]} />
      <button type="submit" className="second" disabled={save.isPending}>
        {cardText.keepRuler}
      </button>
    </form>
  );
}
