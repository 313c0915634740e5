/** Whether the shop answers this device just now, and how old what is shown may be. */
import { useSyncExternalStore } from "react";

export type Contact = {
  answers: boolean;
  /** When the oldest of the kept answers that are shown was given; null while everything is fresh. */
  shownAsOf: string | null;
};

let contact: Contact = { answers: true, shownAsOf: null };
const changes = new EventTarget();

function become(next: Contact) {
  if (next.answers === contact.answers && next.shownAsOf === contact.shownAsOf) return;
  const back = next.answers && !contact.answers;
  contact = next;
  changes.dispatchEvent(new Event("change"));
  if (back) changes.dispatchEvent(new Event("back"));
}

export const shopAnswered = () => become({ answers: true, shownAsOf: null });
export const shopWasSilent = () => become({ ...contact, answers: false });

/** The page got an answer that was kept on this device earlier. */
export const shownFromKept = (keptAt: string) =>
  become({
    answers: false,
    shownAsOf: contact.shownAsOf === null || keptAt < contact.shownAsOf ? keptAt : contact.shownAsOf,
  });

/** The shop answers again after a silence. */
export function onShopBack(tell: () => void): () => void {
  changes.addEventListener("back", tell);
  return () => changes.removeEventListener("back", tell);
}

export const useContact = (): Contact =>
  useSyncExternalStore(
    (tell) => {
      changes.addEventListener("change", tell);
      return () => changes.removeEventListener("change", tell);
    },
    () => contact,
  );
