/** Whether the shop lets this device in. Learnt from its answers: a device that was sent away hears it with the next one. */
import { useSyncExternalStore } from "react";

let letIn = true;
const changes = new EventTarget();

export function heardStatus(status: number) {
  const now = status === 401 ? false : status < 400 ? true : letIn;
  if (now === letIn) return;
  letIn = now;
  changes.dispatchEvent(new Event("change"));
}

export const useLetIn = (): boolean =>
  useSyncExternalStore(
    (tell) => {
      changes.addEventListener("change", tell);
      return () => changes.removeEventListener("change", tell);
    },
    () => letIn,
  );
