import { expect, test } from "vitest";
import { isHeicHead } from "./heic-head.ts";

const head = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

test.each([
  ["\0\0\0\x24ftypheic\0\0\0\0mif1heic", true],
  ["\0\0\0\x24ftypheix", true],
  ["\0\0\0\x18ftypmif1\0\0\0\0mif1heic", true],
  ["\0\0\0\x18ftyphevc", true],
  ["\0\0\0\x1cftypavif\0\0\0\0avifmif1", false],
  ["\0\0\0\x18ftypmp42", false],
  ["\xff\xd8\xff\xe0\0\x10JFIF\0\x01", false],
  ["ftyphe", false],
  ["", false],
])("%j: %s", (bytes, isHeic) => expect(isHeicHead(head(bytes))).toBe(isHeic));
