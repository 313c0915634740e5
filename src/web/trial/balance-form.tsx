/** What the balance resolves: asked once, kept for the whole shop. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { NumberField } from "../parts/field.tsx";
import { typedNumber } from "../parts/quantity.ts";
import { Trouble } from "../parts/trouble.tsx";
import { json, tell } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { useShop } from "../shop/queries.ts";
import { weighingText as text } from "../text/weighing.ts";

/** No form element: it stands inside the sheet that needs it. */
export function BalanceForm({ lacking }: { lacking: string | null }) {
  const known = useShop().data?.balanceMg ?? null;
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState(false);
  const client = useQueryClient();
  const save = useMutation({
    mutationFn: (balanceMg: number) => tell("/api/shop/balance", json("PUT", { balanceMg })),
    onSuccess: async () => {
      await client.invalidateQueries({ queryKey: ["shop"] });
      setTyped(null);
    },
  });
  const keep = () => {
    const mg = typedNumber(typed ?? "");
    setWrong(mg === null);
    if (mg !== null) save.mutate(mg);
  };
  const refused = errorAt(save.error, "/balanceMg");
  return (
    <div className="fields">
      <NumberField
        label={text.balance}
        unit="mg"
        hint={known === null || typed !== null ? text.balanceHint : text.balanceKept}
        value={typed ?? (known === null ? "" : String(known))}
        onType={setTyped}
        error={wrong ? text.wrongBalance : (refused ?? (known === null ? lacking : null))}
      />
      <Trouble error={save.error} shown={["/balanceMg"]} />
      {typed !== null && (
        <div className="actions">
          <button type="button" className="second" onClick={keep} disabled={save.isPending}>
            {text.keepBalance}
          </button>
        </div>
      )}
    </div>
  );
}
