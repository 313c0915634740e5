/** The few letters that rendered coupons need, five wide and seven high: fonts differ from machine to machine, these do not. */
import { InputError } from "../../core/input-error.ts";

const letters: Readonly<Record<string, string>> = {
  "0": "01110 10001 10011 10101 11001 10001 01110",
  "1": "00100 01100 00100 00100 00100 00100 01110",
  "2": "01110 10001 00001 00110 01000 10000 11111",
  "3": "11110 00001 00001 01110 00001 00001 11110",
  "4": "00010 00110 01010 10010 11111 00010 00010",
  "5": "11111 10000 11110 00001 00001 10001 01110",
  "6": "00110 01000 10000 11110 10001 10001 01110",
  "7": "11111 00001 00010 00100 01000 01000 01000",
  "8": "01110 10001 10001 01110 10001 10001 01110",
  "9": "01110 10001 10001 01111 00001 00010 01100",
  "-": "00000 00000 00000 11111 00000 00000 00000",
  ",": "00000 00000 00000 00000 01100 00100 01000",
  " ": "00000 00000 00000 00000 00000 00000 00000",
  r: "00000 00000 10110 11001 10000 10000 10000",
  e: "00000 00000 01110 10001 11111 10000 01110",
  n: "00000 00000 10110 11001 10001 10001 10001",
  d: "00001 00001 01101 10011 10001 10011 01101",
  i: "00100 00000 01100 00100 00100 00100 01110",
  v: "00000 00000 10001 10001 10001 01010 00100",
  t: "01000 01000 11110 01000 01000 01001 00110",
};

export const letterRows = 7;
/** Five columns and the gap to the next letter. */
export const letterPitch = 6;

/** Cells of a text that are inked, as column and row from its top left. Refuses a letter that is not in the table. */
export function inkedCells(text: string): { column: number; row: number }[] {
  return [...text].flatMap((letter, at) => {
    const rows = letters[letter];
    if (rows === undefined) throw new InputError("text", text, `letters among ${Object.keys(letters).join("")}`);
    return rows
      .split(" ")
      .flatMap((cells, row) =>
        [...cells].flatMap((cell, column) => (cell === "1" ? [{ column: at * letterPitch + column, row }] : [])),
      );
  });
}
