/** A phone's HEIC picture: told by its first bytes before anything is sent, with what to do about it. */
import { heicHeadBytes, isHeicHead } from "../../api/heic-head.ts";
import { inspectText } from "../text/inspect.ts";

export async function isHeicFile(file: Blob): Promise<boolean> {
  return isHeicHead(new Uint8Array(await file.slice(0, heicHeadBytes).arrayBuffer()));
}

export function HeicAdvice() {
  return (
    <div role="alert" className="trouble">
      <p>{inspectText.heic}</p>
      <ul>
        {inspectText.heicHow.map((way) => (
          <li key={way}>{way}</li>
        ))}
      </ul>
    </div>
  );
}
