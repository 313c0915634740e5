/** Costly things a few at a time: what one device asks for at once must neither fill the memory nor keep others waiting. */

export type Turns = {
  /** Waits for a free place; what it returns gives the place back. */
  take(): Promise<() => void>;
};

export function turns(atOnce: number): Turns {
  let free = atOnce;
  const waiting: (() => void)[] = [];
  const giveBack = () => {
    const next = waiting.shift();
    if (next) next();
    else free++;
  };
  return {
    async take() {
      if (free > 0) free--;
      else await new Promise<void>((resolve) => waiting.push(resolve));
      let isGiven = false;
      return () => {
        if (!isGiven) giveBack();
        isGiven = true;
      };
    },
  };
}
