/** Sends a photograph and says how far it is. `fetch` cannot tell the progress of what it sends; the older call can. */
import { type Photo, photo } from "../../api/photo.ts";
import { problem } from "../../api/shop.ts";
import { NoAnswer, Refused } from "../shop/ask.ts";

export type Sending = { file: Blob; progress: (share: number) => void; signal: AbortSignal };

export function sendPhoto({ file, progress, signal }: Sending): Promise<Photo> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    const form = new FormData();
    form.append("photo", file);
    request.upload.onprogress = (event) => {
      if (event.lengthComputable) progress(event.loaded / event.total);
    };
    request.onload = () => {
      const answer = answered(request.responseText);
      if (request.status === 201) resolve(photo.parse(answer));
      else reject(new Refused(problemOf(answer, request.status)));
    };
    request.onerror = () => reject(new NoAnswer());
    request.onabort = () => reject(new DOMException("stopped", "AbortError"));
    signal.addEventListener("abort", () => request.abort(), { once: true });
    request.open("POST", "/api/photos");
    request.send(form);
  });
}

function answered(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function problemOf(answer: unknown, status: number) {
  const said = problem.safeParse(answer);
  return said.success ? said.data : { type: "about:blank", title: `The server answered ${status}`, status };
}
