/** A half-typed form, kept on this device until it is sent or thrown away. */
import { useCallback, useState } from "react";
import { forget, keep, readKept } from "./kept.ts";

export type Draft<Form> = {
  form: Form;
  /** Something was typed and not sent yet. */
  begun: boolean;
  change: (part: Partial<Form>) => void;
  clear: () => void;
};

export function useDraft<Form extends object>(key: string, start: () => Form): Draft<Form> {
  const [state, setState] = useState(() => {
    const fresh = start();
    const kept = readKept(`draft ${key}`);
    return { form: restored(fresh, kept), begun: kept !== null };
  });
  const change = useCallback(
    (part: Partial<Form>) =>
      setState((before) => {
        const form = { ...before.form, ...part };
        keep(`draft ${key}`, form);
        return { form, begun: true };
      }),
    [key],
  );
  const clear = () => {
    forget(`draft ${key}`);
    setState({ form: start(), begun: false });
  };
  return { ...state, change, clear };
}

/** Fields that were kept, where the form still has them and their kind did not change since. */
export function restored<Form extends object>(fresh: Form, kept: unknown): Form {
  if (typeof kept !== "object" || kept === null) return fresh;
  const fitting = Object.entries(kept).filter(
    ([name, value]) => name in fresh && sameKind(Reflect.get(fresh, name), value),
  );
  return { ...fresh, ...Object.fromEntries(fitting) };
}

function sameKind(a: unknown, b: unknown) {
  return typeof a === typeof b && Array.isArray(a) === Array.isArray(b);
}
