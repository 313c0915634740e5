/** "three are left" as a sentence or a line begins: "Three are left". */
export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
