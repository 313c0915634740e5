/** A former trial of this shop lends its scatter and what its control reached: estimated as for the next trial of its findings. */
import { useMutation } from "@tanstack/react-query";
import { trialDocument } from "../../api/shop.ts";
import { type DeclaredQuestion, responseKind } from "../../core/trial/declared-question.ts";
import { type TakenScatter, takenScatter } from "../../core/trial/taken-scatter.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { findingsAreOpen } from "../findings/findings-are-open.ts";
import { ChoiceField } from "../parts/field.tsx";
import { ask } from "../shop/ask.ts";
import { useTrials } from "../shop/queries.ts";
import { chanceText } from "../text/chance.ts";

export function ScatterFrom({
  declared,
  taken,
  onTake,
}: {
  declared: DeclaredQuestion;
  /** What was taken, in words. */
  taken: string | null;
  onTake: (taken: TakenScatter) => void;
}) {
  const trials = useTrials().data ?? [];
  const reading = useMutation({ mutationFn: (id: string) => scatterOfTrial(id, declared), onSuccess: onTake });
  if (trials.length === 0 || responseKind(declared) === "binary") return null;
  return (
    <ChoiceField
      label={chanceText.from}
      value={reading.variables ?? ""}
      choices={[
        { value: "", label: chanceText.fromNone },
        ...trials.map(({ id, name }) => ({ value: id, label: name })),
      ]}
      onChoose={(id) => id !== "" && reading.mutate(id)}
      hint={taken ?? undefined}
      error={reading.error?.message}
    />
  );
}

async function scatterOfTrial(id: string, declared: DeclaredQuestion): Promise<TakenScatter> {
  const { name, observations } = await ask(trialDocument, `/api/trials/${id}`);
  const record = trialRecord({ id, name }, observations);
  if (!findingsAreOpen(record)) throw new Error(chanceText.fromClosed(name));
  return takenScatter(record, declared);
}
