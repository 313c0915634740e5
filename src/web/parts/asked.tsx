/** What stands while the shop is asked, and when it cannot be: the screen itself comes with the answer. */
import type { UseQueryResult } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { shellText } from "../text/shell.ts";
import { Trouble } from "./trouble.tsx";

type Props<Answer> = { query: UseQueryResult<Answer>; children: (answer: Answer) => ReactNode };

export function Asked<Answer>({ query, children }: Props<Answer>) {
  if (query.data !== undefined) return children(query.data);
  if (query.isError)
    return (
      <main>
        <h1>{shellText.failed}</h1>
        <NotRead query={query} />
      </main>
    );
  return (
    <main aria-busy="true">
      <p className="lead">{shellText.loading}</p>
    </main>
  );
}

/** The same for a part of a screen that stands already. */
export function AskedInside<Answer>({ query, children }: Props<Answer>) {
  if (query.data !== undefined) return children(query.data);
  if (query.isError) return <NotRead query={query} />;
  return (
    <p aria-busy="true" className="lead">
      {shellText.loading}
    </p>
  );
}

function NotRead({ query }: { query: UseQueryResult<unknown> }) {
  return (
    <>
      <Trouble error={query.error} />
      <button type="button" onClick={() => void query.refetch()}>
        {shellText.tryAgain}
      </button>
    </>
  );
}
