/** Who writes things down on this device: asked once, kept here, sent with each observation. */
import { useSyncExternalStore } from "react";
import { keep, readKept } from "./kept.ts";

const changed = new EventTarget();

function author(): string {
  const kept = readKept("author");
  return typeof kept === "string" ? kept : "";
}

export function setAuthor(name: string) {
  keep("author", name);
  changed.dispatchEvent(new Event("change"));
}

export const useAuthor = (): string =>
  useSyncExternalStore((tell) => {
    changed.addEventListener("change", tell);
    return () => changed.removeEventListener("change", tell);
  }, author);
