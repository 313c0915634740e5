/** The machine got another number on the network: who no longer finds it, and what to do. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { Trouble } from "../parts/trouble.tsx";
import { tell } from "../shop/ask.ts";
import { sharingText } from "../text/sharing.ts";

export function MovedPart({ from, now }: { from: string; now: string }) {
  const client = useQueryClient();
  const known = useMutation({
    mutationFn: () => tell("/api/sharing/known-address", { method: "POST" }),
    onSettled: () =>
      Promise.all([
        client.invalidateQueries({ queryKey: ["sharing"] }),
        client.invalidateQueries({ queryKey: ["me"] }),
      ]),
  });
  return (
    <section>
      <div role="alert" className="trouble">
        <p>
          {sharingText.movedTitle} {sharingText.moved(from, now)}
        </p>
      </div>
      <p>{sharingText.movedBest}</p>
      <p>{sharingText.movedElse}</p>
      <Trouble error={known.error} />
      <button type="button" className="second wet" disabled={known.isPending} onClick={() => known.mutate()}>
        {sharingText.movedKnown}
      </button>
    </section>
  );
}
