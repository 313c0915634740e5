/** What stands while the shop is asked, and when it cannot be: the screen itself comes with the answer. */
import type { UseQueryResult } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { shellText } from "../text/shell.ts";
import { Trouble } from "./trouble.tsx";

export function Asked<Answer>({
  query,
  children,
}: {
  query: UseQueryResult<Answer>;
  children: (answer: Answer) => ReactNode;
}) {
  if (query.data !== undefined) return children(query.data);
  if (query.isError)
    return (
      <main>
        <h1>{shellText.failed}</h1>
        <Trouble error={query.error} />
        <button type="button" onClick={() => void query.refetch()}>
          {shellText.tryAgain}
        </button>
      </main>
    );
  return (
    <main aria-busy="true">
      <p className="lead">{shellText.loading}</p>
    </main>
  );
}
