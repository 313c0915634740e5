/** When to pull the tape: ASTM D3359, 90 ± 30 s after it was put down (secondary copy). Seconds. */
export const tapePullS = { from: 60, to: 120 } as const;
