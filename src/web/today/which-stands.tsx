/** Two devices wrote one thing down differently, neither knowing of the other: somebody has to say which stands. */
import { useState } from "react";
import type { Differing, ReadingSaid } from "../../api/shop.ts";
import { useAuthor } from "../keep/author.ts";
import { sendingId } from "../keep/sending-ids.ts";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { useObserve } from "../shop/queries.ts";
import { dateText, instantText } from "../text/parts.ts";
import { todayText } from "../text/today.ts";

/** One line to open while there is a coupon to look at: what is due stays within reach of the hand. */
export function WhichStands({ differing, folded }: { differing: readonly Differing[]; folded: boolean }) {
  const author = useAuthor();
  // Asked for once, it stays until the whole name stands in it.
  const [unnamed] = useState(() => author === "");
  if (differing.length === 0) return null;
  return (
    <details className="more due" open={!folded}>
      <summary>{todayText.conflict.title(differing.length)}</summary>
      <div className="inside">
        {unnamed && <AuthorField />}
        {author === "" && <p className="hint">{todayText.conflict.nameFirst}</p>}
        {differing.map((one) => (
          <OneConflict key={one.differs.id} conflict={one} author={author} />
        ))}
      </div>
    </details>
  );
}

function OneConflict({ conflict, author }: { conflict: Differing; author: string }) {
  const { trial, what, when, counts, differs } = conflict;
  const observe = useObserve(trial.id);
  const on = when === null ? null : "date" in when ? dateText(when.date) : todayText.conflict.day(when.day);
  const stands = (kept: ReadingSaid, other: ReadingSaid) => {
    const why = todayText.conflict.why(kept.reading, kept.by);
    const body = { kind: "withdrawal" } as const;
    const id = sendingId(`stands ${kept.id} ${other.id}`, body);
    observe.mutate([{ id, by: author, corrects: { id: other.id, why }, body }]);
  };
  return (
    <div className="conflict">
      <p className="verb">{todayText.conflict.sentence(what, on)}</p>
      <p className="reason">{todayText.conflict.untilThen(trial.name)}</p>
      <div className="actions">
        {[
          { kept: counts, other: differs },
          { kept: differs, other: counts },
        ].map(({ kept, other }) => (
          <button
            key={kept.id}
            type="button"
            className="second wet"
            disabled={author === "" || observe.isPending}
            onClick={() => stands(kept, other)}
          >
            {todayText.conflict.stands(kept.reading, kept.by, instantText(kept.writtenAt))}
          </button>
        ))}
      </div>
      <Trouble error={observe.error} />
    </div>
  );
}
