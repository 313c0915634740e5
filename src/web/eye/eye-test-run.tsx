/** Twenty plates without an answer, then the name, then the result. */
import { useMemo, useState } from "react";
import type { NewEyeTest } from "../../api/eye-test.ts";
import { plateSeries } from "../../core/rating/rust-plate.ts";
import { useAuthor } from "../keep/author.ts";
import { Trouble } from "../parts/trouble.tsx";
import { AuthorField } from "../settings/settings-sheet.tsx";
import { eyeText } from "../text/eye.ts";
import { recordText } from "../text/parts.ts";
import { useKeepEyeTest } from "./eye-queries.ts";
import { PlatePicture } from "./plate-picture.tsx";
import { ReadingPad } from "./reading-pad.tsx";

type Taken = Omit<NewEyeTest, "by">;

export function EyeTestRun(props: {
  taken: Taken;
  onRead: (read: number) => void;
  onDone: () => void;
  onStop: () => void;
}) {
  const { taken, onRead, onDone, onStop } = props;
  const plates = useMemo(() => plateSeries(taken.seed), [taken.seed]);
  const at = taken.read.length;
  const recipe = plates[at];
  if (!recipe) return <KeepTest taken={taken} onDone={onDone} />;
  return (
    <main className="inspect eye">
      <h1 className="eye-head">{eyeText.plate(at + 1, plates.length)}</h1>
      <PlatePicture recipe={recipe} marked={false} />
      <ReadingPad key={at} way={taken.way} onRead={onRead} />
      <button type="button" className="quiet" onClick={onStop}>
        {eyeText.leave}
      </button>
    </main>
  );
}

function KeepTest({ taken, onDone }: { taken: Taken; onDone: () => void }) {
  const by = useAuthor().trim();
  const [missing, setMissing] = useState(false);
  const keep = useKeepEyeTest(onDone);
  return (
    <main className="inspect eye">
      <h1>{eyeText.done}</h1>
      <p>{eyeText.doneMore}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          setMissing(by === "");
          if (by !== "") keep.mutate({ ...taken, by });
        }}
      >
        <AuthorField error={missing && by === "" ? recordText.youMissing : null} />
        <Trouble error={keep.error} />
        <button type="submit" className="wet" disabled={keep.isPending}>
          {eyeText.keep}
        </button>
      </form>
    </main>
  );
}
