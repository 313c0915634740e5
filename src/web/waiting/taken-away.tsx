/** What waits here, as a file to take elsewhere; and such a file taken in. */
import { useState } from "react";
import { Trouble } from "../parts/trouble.tsx";
import { waitingText } from "../text/waiting.ts";
import { sendWaiting } from "./send-waiting.ts";
import { itemsOfFile, waitingFile } from "./waiting-file.ts";
import type { WaitingItem } from "./waiting-item.ts";
import { keepWaiting, waitingItems } from "./waiting-store.ts";

export function TakenAway({ waiting }: { waiting: readonly WaitingItem[] }) {
  const [failure, setFailure] = useState<unknown>(null);
  const [said, setSaid] = useState("");
  const act = (what: () => Promise<string>) => {
    setFailure(null);
    setSaid("");
    what().then(setSaid, setFailure);
  };
  return (
    <details className="more">
      <summary>{waitingText.elsewhere}</summary>
      <p>{waitingText.elsewhereMore}</p>
      <Trouble error={failure} />
      <div className="actions">
        {waiting.length > 0 && (
          <button type="button" className="second wet" onClick={() => act(() => giveFile(waiting))}>
            {waitingText.giveFile}
          </button>
        )}
        <label className="button second wet">
          {waitingText.takeFile}
          <input
            type="file"
            className="sr-only"
            onChange={(event) => {
              const file = event.target.files?.[0];
              event.target.value = "";
              if (file) act(() => takeFile(file));
            }}
          />
        </label>
      </div>
      <p role="status">{said}</p>
    </details>
  );
}

/** Long enough for any browser to have begun to save it. */
const savedByMs = 60_000;

async function giveFile(waiting: readonly WaitingItem[]): Promise<string> {
  const address = URL.createObjectURL(await waitingFile(waiting));
  const link = document.createElement("a");
  link.href = address;
  link.download = `waiting ${new Date().toISOString().slice(0, 10)}.coatwright`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), savedByMs);
  return waitingText.fileGiven(waiting.length);
}

/** What waits here already stays as it is: it is the same thing. */
async function takeFile(file: Blob): Promise<string> {
  const items = await itemsOfFile(file);
  const here = new Set((await waitingItems()).map(({ id }) => id));
  const fresh = items.filter(({ id }) => !here.has(id));
  for (const item of fresh) await keepWaiting(item);
  void sendWaiting();
  return waitingText.fileTaken(fresh.length, items.length - fresh.length);
}
