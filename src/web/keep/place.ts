/** The place on a long page: a reload or the way back comes to where the reader was. */
import { useEffect } from "react";

export function useKeptPlace(key: string, ready: boolean) {
  useEffect(() => {
    if (!ready) return;
    const kept = Number(sessionStorage.getItem(`coatwright place ${key}`) ?? 0);
    if (kept > 0 && location.hash === "") requestAnimationFrame(() => scrollTo(0, kept));
    let waiting = 0;
    const remember = () => {
      cancelAnimationFrame(waiting);
      waiting = requestAnimationFrame(() => sessionStorage.setItem(`coatwright place ${key}`, String(scrollY)));
    };
    addEventListener("scroll", remember, { passive: true });
    return () => {
      cancelAnimationFrame(waiting);
      removeEventListener("scroll", remember);
    };
  }, [key, ready]);
}
