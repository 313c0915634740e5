import type { UseQueryResult } from "@tanstack/react-query";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { Refused } from "../shop/ask.ts";
import { Asked, AskedInside } from "./asked.tsx";

const refused = new Refused({ type: "about:blank", title: "this device looks only", status: 403 });
// Of a query only what is looked at here.
const asked = (state: { isError: boolean; error: Error | null }) =>
  ({ data: undefined, ...state }) as unknown as UseQueryResult<string>;
const failed = asked({ isError: true, error: refused });
const pending = asked({ isError: false, error: null });

describe("what stands while the shop is asked", () => {
  test("a screen that cannot be shown has a heading and says why in a sentence", () =>
    expect(renderToStaticMarkup(<Asked query={failed}>{(said) => said}</Asked>)).toMatch(
      /^<main><h1>This could not be shown\.<\/h1>.*<p>This device looks only<\/p>.*Try again/,
    ));
  test.each([["failed", failed] as const, ["pending", pending] as const])(
    "a part of a screen that is %s is no second screen inside it",
    (_how, query) =>
      expect(renderToStaticMarkup(<AskedInside query={query}>{(said) => said}</AskedInside>)).not.toMatch(/<main|<h1/),
  );
});
