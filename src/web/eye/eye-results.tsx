/** What each inspector's newest test says, the points first. */
import type { EyeTest } from "../../api/eye-test.ts";
import { eyeAgreement } from "../../core/rating/eye-agreement.ts";
import { eyeSentences } from "../../core/rating/eye-sentences.ts";
import { useAuthor } from "../keep/author.ts";
import { Trouble } from "../parts/trouble.tsx";
import { eyeText } from "../text/eye.ts";
import { useEyeTests } from "./eye-queries.ts";
import { EyeScatter } from "./eye-scatter.tsx";

export function EyeResults() {
  const { data, error } = useEyeTests();
  const author = useAuthor().trim();
  const newest = [...new Map((data ?? []).map((one) => [one.by, one])).values()].reverse();
  return (
    <section aria-labelledby="eye-results">
      <h2 id="eye-results">{eyeText.results}</h2>
      <Trouble error={error} />
      {data && newest.length === 0 && <p>{eyeText.noResults}</p>}
      {newest.map((one) => (
        <Inspector
          key={one.id}
          test={one}
          isYou={one.by === author}
          earlier={(data ?? []).filter(({ by }) => by === one.by).length - 1}
        />
      ))}
    </section>
  );
}

function Inspector({ test, isYou, earlier }: { test: EyeTest; isYou: boolean; earlier: number }) {
  const { by, way, read, truePercents, recordedAt } = test;
  const readings = truePercents.map((truePercent, at) => ({ truePercent, read: read[at]! }));
  return (
    <article className="eye-result">
      <h3>{eyeText.newest(by, way, recordedAt.slice(0, 10))}</h3>
      {eyeSentences(isYou ? eyeText.you : by, way, eyeAgreement({ way, readings })).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {way === "percent" && (
        <EyeScatter
          readings={readings}
          words={{ label: eyeText.chart(by), truth: eyeText.chartTrue, read: eyeText.chartRead }}
        />
      )}
      {way === "percent" && read.includes(0) && <p className="hint">{eyeText.zero}</p>}
      {earlier > 0 && <p className="hint">{eyeText.before(earlier)}</p>}
    </article>
  );
}
