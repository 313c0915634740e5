/** The stages as a line in the margin, filled as far as the trial has come; pressing one goes there. */
import { useEffect, useState } from "react";
import { trialText } from "../text/trial.ts";
import { type Stage, type StageId, stageIds } from "./stages.ts";

export function StageLine({ stages }: { stages: readonly Stage[] }) {
  const read = useStageRead();
  return (
    <nav className="stages" aria-label={trialText.stagesLabel}>
      <ol>
        {stages.map(({ id, state }) => (
          <li key={id} className={state === "ahead" ? "" : state === "now" ? "reached now" : "reached"}>
            <a
              href={`#${id}`}
              aria-label={`${trialText.stages[id]}, ${trialText.stageState[state]}`}
              title={trialText.stages[id]}
              aria-current={read === id ? "location" : undefined}
            >
              <span>{trialText.stages[id]}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

/** The stage at the top of what is being read. */
function useStageRead(): StageId {
  const [read, setRead] = useState<StageId>("question");
  useEffect(() => {
    let waiting = 0;
    const look = () => {
      const passed = stageIds.filter(
        (id) => (document.getElementById(id)?.getBoundingClientRect().top ?? 1e6) < innerHeight / 3,
      );
      setRead(passed.at(-1) ?? "question");
    };
    const onScroll = () => {
      cancelAnimationFrame(waiting);
      waiting = requestAnimationFrame(look);
    };
    look();
    addEventListener("scroll", onScroll, { passive: true });
    return () => {
      cancelAnimationFrame(waiting);
      removeEventListener("scroll", onScroll);
    };
  }, []);
  return read;
}
