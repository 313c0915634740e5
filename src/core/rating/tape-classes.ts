/** Classes of the tape test, ASTM D3359 (published): A for an X-cut, B for a cross-cut; 5 is the best. */
export const tapeClasses = ["5A", "4A", "3A", "2A", "1A", "0A", "5B", "4B", "3B", "2B", "1B", "0B"] as const;
export type TapeClass = (typeof tapeClasses)[number];
