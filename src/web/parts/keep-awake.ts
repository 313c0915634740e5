/** Keeps the screen on while something is done with gloves on. What cannot be kept on goes dark as it always did. */
import { useEffect } from "react";

export function useKeepAwake() {
  useEffect(() => ("wakeLock" in navigator ? holdWakeLock() : playNothing()), []);
}

/** The lock is lost whenever the page is hidden, so it is asked for again when it is seen. */
function holdWakeLock(): () => void {
  let held: Promise<WakeLockSentinel | null> = Promise.resolve(null);
  const hold = () => {
    if (document.visibilityState === "visible") held = navigator.wakeLock.request("screen").catch(() => null);
  };
  hold();
  document.addEventListener("visibilitychange", hold);
  return () => {
    document.removeEventListener("visibilitychange", hold);
    void held.then((lock) => lock?.release());
  };
}

/** Without TLS there is no lock: most phones stay awake while a video plays, so a muted one of nothing does. */
function playNothing(): () => void {
  const canvas = document.createElement("canvas");
  const drawn = canvas.getContext("2d");
  if (!drawn || !("captureStream" in canvas)) return () => {};
  const video = document.createElement("video");
  video.muted = true;
  video.playsInline = true;
  video.srcObject = canvas.captureStream(1);
  const timer = setInterval(() => drawn.fillRect(0, 0, 1, 1), 1000);
  const play = () => void video.play().catch(() => {});
  play();
  // A browser that wants a finger first gets it with the next tap.
  document.addEventListener("pointerdown", play);
  return () => {
    clearInterval(timer);
    document.removeEventListener("pointerdown", play);
    video.srcObject = null;
  };
}
