/** Lets the page open without network from the next time on. Only a secure page may; the rest works without. */
export function installPage() {
  if (!isSecureContext || !("serviceWorker" in navigator)) return;
  const install = () =>
    // Its own files come after those of the screen that somebody waits for. Refused (a private window), nothing is lost.
    setTimeout(
      () => void navigator.serviceWorker.register("/service-worker.js", { type: "module" }).catch(() => {}),
      afterMs,
    );
  if (document.readyState === "complete") install();
  else addEventListener("load", install, { once: true });
}

const afterMs = 1500;
