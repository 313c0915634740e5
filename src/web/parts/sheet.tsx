/** A sheet over the page: the browser's own dialog, which keeps the focus and closes on Escape. */
import { type ReactNode, useEffect, useId, useRef } from "react";
import { shellText } from "../text/shell.ts";

export function Sheet({
  title,
  open,
  onClose,
  children,
}: {
  title: string;
  open: boolean;
  onClose: () => void;
  children: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    if (open && !dialog.current?.open) dialog.current?.showModal();
    if (!open) dialog.current?.close();
  }, [open]);
  return (
    <dialog ref={dialog} onClose={onClose} aria-labelledby={titleId} className="sheet">
      <div className="sheet-head">
        <h2 id={titleId}>{title}</h2>
        <button type="button" className="quiet" onClick={onClose}>
          {shellText.close}
        </button>
      </div>
      {open && children}
    </dialog>
  );
}
